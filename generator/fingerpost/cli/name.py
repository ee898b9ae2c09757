"""Says what a shape or a set of notes is called, and why; the likeliest name first, then the others."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, Any

from fingerpost.cli import instrument, key_option
from fingerpost.cli.answer import answer_each, say_json

if TYPE_CHECKING:
    from fingerpost.cli.sound import Sound
    from fingerpost.music.chord_name import ChordName

NAME = "name"
SUMMARY = "what a shape is called, and why"
EXAMPLES = """\
A shape is written string by string, the highest-numbered string first: x is not struck, 0 is open. Frets over 9
take dashes (x-10-12-12-11-x), fingers follow a slash (x32010/-32-1-). Notes are written bass first.

examples:
  fingerpost name x32010
  fingerpost name --json 320003 xx0232
  fingerpost name --key G x02210
  fingerpost name C,E,Bb
  fingerpost name --capo 3 320003
  fingerpost name --tuning DADGAD 000000
  fingerpost name - < shapes.txt"""

_WHY_WIDTH = 74


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the arguments of `name`."""
    parser.add_argument(
        "shapes", nargs="+", metavar="SHAPE", help="a shape, notes with commas, or - for standard input"
    )
    parser.add_argument("--json", action="store_true", help="one JSON object a line")
    parser.add_argument(
        "--key", metavar="KEY", help="the key that the music is in, such as G or Em; it settles spelling"
    )
    instrument.add_arguments(parser)


def run(args: argparse.Namespace) -> int:
    """Names each shape; the exit code is 2 if any could not be read."""
    from fingerpost.cli.sound import of_notes, of_shape

    board = instrument.fretboard(args)
    key = key_option.read(args.key)

    def answer(text: str) -> None:
        sound = of_notes(text, key) if _is_notes(text) else of_shape(text, board, key)
        say_json(_object(sound)) if args.json else _say(sound)

    return answer_each(args.shapes, answer)


def _is_notes(text: str) -> bool:
    return "," in text or text[:1] in "ABCDEFG"


def _object(sound: Sound) -> dict[str, Any]:
    return {
        "shape": sound.shape,
        "notes": list(sound.notes),
        "pitch_classes": sorted(sound.pitch_classes),
        "bass": sound.bass,
        "names": [_name(name) for name in sound.names],
    }


def _name(name: ChordName) -> dict[str, Any]:
    chord = name.chord
    return {
        "symbol": name.symbol,
        "exact": name.exact,
        "spoken": name.spoken,
        "root": str(chord.root),
        "kind": chord.kind,
        "degrees": [{"value": d.value, "alter": d.alter, "type": d.type} for d in chord.degrees],
        "bass": None if chord.bass is None else str(chord.bass),
        "intervals": list(name.intervals),
        "omitted": list(name.omitted),
        "why": name.why,
    }


def _say(sound: Sound) -> None:
    """The answer for a person: the name, what it is made of, why, and what else it could be called."""
    import textwrap

    best, *others = sound.names
    print(f"{sound.asked}  is  {best.symbol}" + ("" if best.exact == best.symbol else f"  (exactly {best.exact})"))
    lines = [
        ("spoken", best.spoken),
        ("notes", "  ".join(sound.notes)),
        ("intervals", "  ".join(best.intervals)),
        ("left out", ", ".join(best.omitted)),
        ("why", best.why),
        ("shape", sound.without_capo),
        ("also", ", ".join(name.symbol for name in others[:5])),
    ]
    for label, words in lines:
        if words:
            wrapped = textwrap.wrap(words, _WHY_WIDTH) or [""]
            print(f"  {label:<10}{wrapped[0]}")
            print("".join(f"  {'':<10}{line}\n" for line in wrapped[1:]), end="")
    print()
