"""How long a load wants: the dwell for this wall, this heater and this many pieces, and what moves it."""
