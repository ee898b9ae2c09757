"""Routes: the shortest, then easiest, chain of one finger's moves from shape to shape, searched exactly."""
