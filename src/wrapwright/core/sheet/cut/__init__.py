"""From a laid sheet to the trimmer: which strokes, in which order, at which fence distance, on which stacks."""
