"""Recipes: what they hold, how they are read, and the limits that stop a heat."""
