"""Sheets as pictures: PNG and TIFF files of whole pages."""
