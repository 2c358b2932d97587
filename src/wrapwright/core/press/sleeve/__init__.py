"""Which sleeve holds a wrap tight, and how long it is cut."""
