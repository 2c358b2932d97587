"""The cut list on paper and on the screen."""
