"""Requests of a screen: what a design looks like while it is being composed."""
