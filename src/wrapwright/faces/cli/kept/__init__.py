"""Commands for what the workshop keeps: blanks, set-ups, designs."""
