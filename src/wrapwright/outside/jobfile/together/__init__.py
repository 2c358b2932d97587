"""The sheets file: several jobs printed together, and the report of what was made."""
