"""Commands for lists of names."""
