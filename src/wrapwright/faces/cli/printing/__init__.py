"""Commands for printing: which printers there are, and sheets to them."""
