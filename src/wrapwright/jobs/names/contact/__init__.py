"""What a list is looked at by and handled by: the contact sheet to sign off, the handling list in tray order."""
