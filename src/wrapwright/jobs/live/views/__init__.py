"""The values a screen gets, made from a composition."""
