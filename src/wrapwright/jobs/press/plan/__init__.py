"""Planning a heat: the dwell that a load wants, what moves it, and the sleeve that holds the wrap."""
