"""Routes: the shortest, then easiest, chain of one finger's moves from shape to shape, searched exactly.

`spots` numbers where a finger can be, `together` says which spots go together, `finger_costs` what a move costs. On
these stand `hands` (shapes as six numbers) and `neck` (the moves between them), then `bound` and `search`. `question`
and `answer` are what a person asks and gets; `conditions`, `relaxed`, `chord_shapes`, `nearest_chord` belong to them.
"""
