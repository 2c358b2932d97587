"""A list of names: its rows, what is doubtful in them, and what the user decided about each."""
