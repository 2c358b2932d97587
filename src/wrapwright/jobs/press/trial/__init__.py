"""Trials: planned, printed, scored, fitted, and the window that planning goes by."""
