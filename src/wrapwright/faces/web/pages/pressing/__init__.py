"""The screens about heat, one module a screen."""
