"""Heat: what a wall takes up in an oven or press, how much of it counts, and how to learn it from trials."""
