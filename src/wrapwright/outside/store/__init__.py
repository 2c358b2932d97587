"""The workshop's store: blanks, pictures, fonts, set-ups, designs with every revision, and what was made."""
