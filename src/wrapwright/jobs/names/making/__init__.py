"""Making the pieces of a list: sheets in shards, each made by itself and never twice."""
