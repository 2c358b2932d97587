"""What runs in the child that reads a workbook."""
