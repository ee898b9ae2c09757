"""One line about each key of a block and of a step, for an author who meets it."""

from __future__ import annotations

from collections.abc import Mapping

BLOCK: Mapping[str, str] = {
    "id": "The block's own name for ever: small letters, figures and hyphens; no other block of the course has it.",
    "title": "A heading over the block.",
    "start": "What the hand holds first: `open`, fingers (`2 E3, 1 A2`), a shape (`x32010/-32-1-`), `previous`, "
    "`after ID` or `as taught CHORD`.",
    "strum": "Which strings are struck from the start: `A-e`, `A D B` or `all`.",
    "key": "The key, such as `G` or `Em`; it settles how notes are spelled.",
    "tuning": "The tuning of this block: a name such as `drop D`, or its pitches from the lowest string.",
    "capo": "The fret that the capo lies on; frets then count from it.",
    "teaches": "The chords and techniques that are new here, as `[G, Gadd9, bar]`.",
    "fingers_per_step": "How many fingers one step of this block may move.",
    "steps": "The moves, a line each, such as `- 1 off = Cmaj7`.",
}
STEP: Mapping[str, str] = {
    "move": "The move, as on one line: `1 to B1`, `2 off`, `3 for 2`, `hold`.",
    "name": "The chord that this is, held against the notes; the same as `=`.",
    "taught_as": "The name to be shown though the notes differ, with a footnote; the same as `~`.",
    "cue": "The place in your recording, such as `0:41`; the same as `@`.",
    "say": "Your words to the student; after `|` they may run over several lines.",
    "id": "An id of your own for this step; without it, one is made from the change of shape.",
    "beats": "How long the chord lasts.",
    "pattern": "Down and up strokes, such as `D DU -UDU`.",
    "or": "An easier shape, as text, with or without fingers.",
    "image": "A picture file beside the page, then a text that says what is to be seen.",
}
