"""Papers of a list of names: its contact sheet and its handling list."""
