"""What is true: pure functions and frozen values; no files, clock, network, screen or database."""
