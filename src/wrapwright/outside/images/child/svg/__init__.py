"""SVG made harmless and drawn on a page."""
