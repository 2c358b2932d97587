"""How an older store becomes a newer one, step by step."""
