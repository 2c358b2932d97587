"""The tray: designs that are printed together, kept, laid while one looks, and made."""
