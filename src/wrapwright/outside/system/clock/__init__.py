"""The time, and a counter of seconds beside it that nobody can set."""
