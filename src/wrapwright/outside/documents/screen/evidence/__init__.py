"""Evidence of a heater as plots."""
