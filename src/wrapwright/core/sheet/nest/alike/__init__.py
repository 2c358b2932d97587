"""Copies of one part: columns that reach into each other, and blocks of them."""
