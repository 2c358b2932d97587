"""The side of reading pictures that runs in a child: nothing here is imported by the rest."""
