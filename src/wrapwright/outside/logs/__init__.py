"""Logs of temperatures: text files of two columns or more, as loggers and thermometers write them."""
