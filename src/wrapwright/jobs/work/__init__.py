"""The steps that several jobs share, each from value to value."""
