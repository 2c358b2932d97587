"""Panels: a wrap larger than the paper in several pieces, joined where it shows least."""
