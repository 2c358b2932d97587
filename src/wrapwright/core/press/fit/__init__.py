"""What a heater is like, from evidence: logs, readings of a thermometer, a recipe that is known to be good."""
