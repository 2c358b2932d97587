"""Places that many machines reach: a folder that all see, or an object store."""
