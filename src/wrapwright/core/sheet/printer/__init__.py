"""What a printer can do, held against a sheet."""
