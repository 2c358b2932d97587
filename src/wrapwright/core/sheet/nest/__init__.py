"""Parts of any outline on the fewest sheets, to be cut by scissors or plotter."""
