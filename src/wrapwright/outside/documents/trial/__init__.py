"""A trial drawn for the screen."""
