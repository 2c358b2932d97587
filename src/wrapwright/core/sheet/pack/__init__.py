"""Rectangles on the fewest sheets, divided by cuts from edge to edge."""
