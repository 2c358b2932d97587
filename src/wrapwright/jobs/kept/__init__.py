"""Requests about what the workshop keeps."""
