"""Pitches, shapes, hands and chord names: pure, without input or output, without a dependency."""
