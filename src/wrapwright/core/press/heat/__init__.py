"""How a wall warms up: materials, films, walls, ovens and presses."""
