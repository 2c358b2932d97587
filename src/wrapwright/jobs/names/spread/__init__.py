"""A list made on many machines: its inputs and its shards go through a place that all of them reach."""
