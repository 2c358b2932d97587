"""A design's own list of names as a screen works with it: brought, looked at, decided about, shown and made."""
