"""Heats: started, told of while they run, looked at when they are done."""
