"""The rows of heat: recipes, heaters, circuits, evidence, trials, what was heated."""
