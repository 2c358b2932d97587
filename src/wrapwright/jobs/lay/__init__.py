"""Sheets of many jobs: arranged, made together, cut."""
