"""The girth gauge: a printed strip that reads the flat length of a blank in its set-up's own millimetres."""
