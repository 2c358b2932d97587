"""Rules of the check of names, one small function each: a value or measured figures go in, doubts come out."""
