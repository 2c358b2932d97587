"""Commands for calibrating a printer and measuring by paper."""
