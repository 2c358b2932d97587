"""Wrapwright: from a measured blank and a picture to a transfer that lands where it should."""
