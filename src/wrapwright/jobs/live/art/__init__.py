"""Elements as a screen draws them: outlines in their own millimetres, or pixels with alpha."""
