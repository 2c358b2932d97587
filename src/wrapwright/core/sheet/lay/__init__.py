"""Laying many parts on few sheets: what is asked, and what comes back."""
