"""The printer's scale: the target it is measured by, what was measured, and whether it drifts."""
