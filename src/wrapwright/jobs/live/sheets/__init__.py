"""The sheet on a screen: its pixels and its words."""
