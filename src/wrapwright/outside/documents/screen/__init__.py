"""Drawings for the screen: SVG made from the numbers, in CSS pixels."""
