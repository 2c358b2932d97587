"""`press`: the commands of heat."""
