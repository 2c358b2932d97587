"""Sheets to a printer or a watched folder."""
