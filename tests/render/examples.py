"""A block of each kind of step, built by hand, with awkward text in every field that an author writes."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from fingerpost.course.model import Block, Naming, PracticeItem, Retuning, Step, Watch, WayBack
from fingerpost.course.table import table
from fingerpost.diagnostics import Span
from fingerpost.music.chord_name import names
from fingerpost.music.chord_symbol import read
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import read_shape
from fingerpost.music.transition import transition

SPAN = Span("lesson.md", 1, 1, 1, 2)
NASTY = "<script>alert(1)</script> \"quoted\" & 'more' \x07 ]]> --> {x}"


def block(
    steps: list[tuple[str | Shape, str | None, dict[str, Any]]], neck: Fretboard | None = None, **fields: Any
) -> Block:
    """A block from (shape or its text, chord, further fields of the step); ways back and the table are computed."""
    neck = neck or Fretboard()
    made: list[Step] = []
    for number, (text, symbol, more) in enumerate(steps):
        shape = read_shape(text, neck.strings) if isinstance(text, str) else text
        before = made[-1].shape if made else None
        chord = read(symbol) if symbol else None
        sounding = chord.transposed(neck.capo) if chord and neck.capo else None
        naming = replace(Naming(chord, sounding=sounding), **more.get("naming", {}))
        rest = {key: value for key, value in more.items() if key != "naming"}
        change = transition(before, shape, neck) if before is not None else None
        rows = table(shape, before, chord, sounding, neck)
        made.append(Step(f"tide--{number}", number, SPAN, shape, naming, rows, change, **rest))
    ways = tuple(
        WayBack(number, number - 1, transition(made[number].shape, made[number - 1].shape, neck))
        for number in range(1, len(made))
    )
    given = {"id": "tide", "title": "Letting G loosen", "ways_back": ways, **fields}
    return Block(span=SPAN, fretboard=neck, key=None, teaches=(), steps=tuple(made), **given)


def named(shape: Shape, neck: Fretboard) -> str | None:
    """The best computed name of what a shape sounds, as an exact symbol; None where it is silent."""
    heard = [
        (neck.shape_midi(string, fret), string)
        for string in shape.sounding_strings
        if (fret := shape.fret(string)) is not None
    ]
    if not heard:
        return None
    return names({midi % 12 for midi, _ in heard}, min(heard)[0] % 12)[0].exact


def loosening(**fields: Any) -> Block:
    """G, Gadd9, Cmaj9, a hold, a rest and back: a plain block."""
    return block(
        [
            ("320003/21---3", "G", {"pattern": "D DU", "beats": "4"}),
            ("300003/2----3", "Gadd9", {"cue": "0:41"}),
            ("030003/-2---3", "Cmaj9", {"naming": {"strict": read("Cmaj9/E")}}),
            ("030003/-2---3", "Cmaj9", {"hold": True}),
            ("xxxxxx", None, {"rest": True}),
            ("030003/-2---3", "Cmaj9", {"back": True}),
        ],
        **fields,
    )


def nasty() -> Block:
    """Every field that an author writes holds markup, quotes and a control character."""
    neck = Fretboard()
    shape = read_shape("x32010/-32-1-")
    more = {
        "say": f"{NASTY}\n\n{NASTY}",
        "cue": NASTY,
        "beats": NASTY,
        "pattern": NASTY,
        "image": f"{NASTY}.png",
        "image_text": NASTY,
        "easier": shape,
        "easier_naming": Naming(read("C")),
        "move_text": NASTY,
    }
    made = block([("320003/21---3", "G", more), ("300003/2----3", "Gadd9", more)], neck, id=NASTY, title=NASTY)
    steps = tuple(replace(step, id=f"{NASTY}{step.ordinal}") for step in made.steps)
    practice = (
        PracticeItem("change", 0, 1, keep=("2",), watch=(Watch("clear", ("3",), (2,)),), clean=5, tries=6),
        PracticeItem("stop"),
    )
    return replace(made, steps=steps, practice=practice, retuning=Retuning(((2, "B3", "A3"),), 0, 3))
