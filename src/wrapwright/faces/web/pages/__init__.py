"""The pages, one module a screen."""
