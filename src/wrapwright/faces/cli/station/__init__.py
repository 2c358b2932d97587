"""Commands for the bench in the browser: serving it, and who may use it."""
