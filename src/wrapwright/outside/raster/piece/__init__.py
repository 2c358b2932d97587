"""The drawing of the finished piece, seen from one side."""
