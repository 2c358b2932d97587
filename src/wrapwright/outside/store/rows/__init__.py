"""The rows of the store, one module a kind of thing: written and read inside a transaction that is handed in."""
