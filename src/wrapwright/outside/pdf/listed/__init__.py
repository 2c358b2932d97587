"""Pages of a list of names: shared art once in the file, each piece's own part beside it."""
