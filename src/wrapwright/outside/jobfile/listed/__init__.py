"""The report of a list of names."""
