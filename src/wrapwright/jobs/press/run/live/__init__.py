"""A heat while it runs: the moment, its dose, its log."""
