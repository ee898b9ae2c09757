"""Plans: an order and shapes for a set of chords, and long chains of chords, one finger's move at a time."""
