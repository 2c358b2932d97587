"""The figures of the checks, each from the one composed raster of a wrap."""
