"""Says which notes a chord symbol asks for."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, Any

from fingerpost.cli.answer import QuestionError, answer_each, say_json

if TYPE_CHECKING:
    from fingerpost.music.chord import Chord

NAME = "spell"
SUMMARY = "the notes of a chord symbol"
EXAMPLES = """\
Symbols are read as people write them: Cmaj7, CM7 and C^7 are one chord, so are Cm, C- and Cmin.

examples:
  fingerpost spell C7
  fingerpost spell 'F#m7b5' 'C/G' 'C6/9'
  fingerpost spell --json 'Bb7(#9)'
  printf 'Am\\nD7\\nG\\n' | fingerpost spell -"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the arguments of `spell`."""
    parser.add_argument("symbols", nargs="+", metavar="SYMBOL", help="a chord symbol, or - for standard input")
    parser.add_argument("--json", action="store_true", help="one JSON object a line")


def run(args: argparse.Namespace) -> int:
    """Spells each symbol; the exit code is 2 if any could not be read."""

    def answer(text: str) -> None:
        chord = _read(text)
        say_json(_object(text, chord)) if args.json else _say(text, chord)

    return answer_each(args.symbols, answer)


def _read(text: str) -> Chord:
    from fingerpost.music.chord_symbol import SymbolError, read

    try:
        return read(text)
    except SymbolError as problem:
        mark = " " * problem.position + "^" * max(1, problem.length)
        raise QuestionError(
            f"{text!r} is no chord symbol: {problem.message}; expected {problem.expected}\n    {text}\n    {mark}"
        ) from problem


def _notes(chord: Chord) -> list[str]:
    """The tones from the root up; a bass that is none of them comes first."""
    tones = [str(tone.note) for tone in chord.tones]
    bass = None if chord.bass is None else str(chord.bass)
    return tones if bass is None or bass in tones else [bass, *tones]


def _object(text: str, chord: Chord) -> dict[str, Any]:
    return {
        "symbol": text,
        "root": str(chord.root),
        "bass": str(chord.bass or chord.root),
        "notes": _notes(chord),
        "pitch_classes": sorted(chord.pitch_classes),
    }


def _say(text: str, chord: Chord) -> None:
    from fingerpost.music.chord_symbol import spoken, write

    ours = write(chord)
    print(f"{text}  {'' if text == ours else f'({ours})  '}{spoken(chord)}")
    print(f"  notes     {'  '.join(_notes(chord))}")
    print(f"  intervals {'  '.join(tone.interval for tone in chord.tones)}")
    if chord.bass is not None:
        print(f"  bass      {chord.bass}")
    print()
