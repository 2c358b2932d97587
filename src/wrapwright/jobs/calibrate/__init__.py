"""Requests about calibrating a printer and measuring by paper."""
