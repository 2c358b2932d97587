"""Outlines nested in a strip by a library, in a process apart."""
