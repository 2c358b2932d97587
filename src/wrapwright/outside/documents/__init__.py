"""The documents that travel with the work: proof and ticket."""
