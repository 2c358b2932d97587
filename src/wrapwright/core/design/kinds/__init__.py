"""One file a kind of element: what it puts on the wrap."""
