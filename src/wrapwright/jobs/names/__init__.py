"""Lists of names: opened, checked, decided about, shown."""
