"""Recipes, heaters and circuits that the workshop keeps."""
