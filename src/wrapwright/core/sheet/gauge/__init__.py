"""The gauge's page: strips laid the way the wraps lie, a rule for the wall, and how to read them."""
