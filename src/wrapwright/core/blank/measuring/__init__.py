"""From readings to the bare wall, and how well it is known."""
