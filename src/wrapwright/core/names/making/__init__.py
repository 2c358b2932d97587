"""From rows to pieces: which sheet and place each has, and what of its art is its own."""
