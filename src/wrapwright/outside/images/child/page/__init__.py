"""A PDF page taken apart into outlines, or drawn as pixels."""
