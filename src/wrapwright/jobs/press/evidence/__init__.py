"""What is known of a heater, and from what: logs, readings, recipes known to be good, maps."""
