"""Tables of other programs, read as rows of texts."""
