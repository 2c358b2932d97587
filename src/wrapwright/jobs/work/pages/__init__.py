"""The pages of one job: panels, and whole pages as pictures."""
