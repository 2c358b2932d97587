"""The measuring form: what was typed, what is wrong with it, what it comes to in words."""
