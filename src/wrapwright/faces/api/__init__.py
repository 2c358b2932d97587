"""The REST face."""
