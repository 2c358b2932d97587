"""Evidence without a logger: a few readings, a recipe known to be good, a map of the oven."""
