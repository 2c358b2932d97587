"""Heat: recipes, heaters, plans, runs, trials, evidence."""
