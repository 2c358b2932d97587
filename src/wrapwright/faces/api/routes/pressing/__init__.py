"""Routes of heat."""
