"""Codes made from text."""
