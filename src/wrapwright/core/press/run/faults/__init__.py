"""What goes wrong with a piece, why, and what to change first."""
