"""The forms of the store, oldest first."""
