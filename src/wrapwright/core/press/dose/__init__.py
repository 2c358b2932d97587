"""What the heat has done: equivalent minutes, and the band they lie in."""
