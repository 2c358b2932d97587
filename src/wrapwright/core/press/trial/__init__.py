"""Trials: small pieces heated for chosen times, scored by eye, and the window of doses that their scores tell."""
