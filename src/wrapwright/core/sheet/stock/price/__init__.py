"""What the best pattern of a sheet is worth, and which patterns are worth nearly as much."""
