"""Commands for sheets of many jobs."""
