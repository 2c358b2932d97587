"""Printers reached by the Internet Printing Protocol, and folders that a driver watches."""
