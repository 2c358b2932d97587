"""One heat from its start to the last look: its state, its live dose, what may be done, and why a piece went wrong."""
