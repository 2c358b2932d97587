"""Proving a run: what stands in its files is read back and held against the rows of the list."""
