"""Settings of the faces: default < file < environment < option; each value knows its origin."""
