"""A layout as pages: where each piece lies on the paper, what is written beside it, and which lines guide the cuts."""
