"""Routes about lists of names."""
