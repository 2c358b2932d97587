"""What heat is reckoned with: materials, covers, and heaters to start from."""
