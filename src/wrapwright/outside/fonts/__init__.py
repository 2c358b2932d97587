"""Fonts found, texts shaped and set as outlines."""
