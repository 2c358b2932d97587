"""Many machines: work handed to a cluster, and what its workers must have in common with us."""
