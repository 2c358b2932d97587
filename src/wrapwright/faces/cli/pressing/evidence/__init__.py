"""`press`: evidence of a heater: logs, readings, recipes known to be good, maps."""
