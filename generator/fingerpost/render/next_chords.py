"""What can be reached next from a chord: on the index of chords, by one finger from any shape of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import islice

from fingerpost.course.model import ChordEntry, Course
from fingerpost.course.next_shapes import Untaught, one_finger_apart, taught_shapes, untaught_of
from fingerpost.course.way_map import Known
from fingerpost.music.chord import Chord
from fingerpost.music.hand import Hand
from fingerpost.render.look import Look
from fingerpost.render.parts import chord, tag
from fingerpost.render.plain import escaped
from fingerpost.render.voice import Voice

MOST_UNTAUGHT = 4
_NAMES = "\ue003"


def next_html(course: Course, hand: Hand, idents: Mapping[str, str], look: Look) -> dict[Chord, str]:
    """For each chord of the index one or two lines; "" where nothing is one finger away."""
    taught = taught_shapes(course)
    apart = one_finger_apart(taught)
    near, _ = untaught_of(course, hand)
    entries = {entry.chord: entry for entry in course.chords}
    return {entry.chord: _lines(entry, taught, apart, near, entries, idents, look) for entry in course.chords}


def _lines(
    entry: ChordEntry,
    taught: Mapping[Known, Chord],
    apart: Mapping[Known, tuple[Known, ...]],
    near: Mapping[Known, tuple[Untaught, ...]],
    entries: Mapping[Chord, ChordEntry],
    idents: Mapping[str, str],
    look: Look,
) -> str:
    shapes = [(met.shape, met.fretboard) for met in entry.shapes]
    reached = dict.fromkeys(taught[other] for shape in shapes for other in apart.get(shape, ()))
    voice = Voice(look.words, style=look.style, marks=True)
    links = [
        tag("a", chord(name, voice, ""), href=f"#{idents[entries[name].symbol]}")
        for name in reached
        if name != entry.chord
    ]
    easiest = sorted(
        (one.points, number, one.chord) for number, one in enumerate(o for s in shapes for o in near.get(s, ()))
    )
    others = islice(dict.fromkeys(name for _, _, name in easiest), MOST_UNTAUGHT)
    plain = [chord(name, voice, "") for name in others]
    return _line("next.taught", links, look) + _line("next.untaught", plain, look)


def _line(key: str, names: Iterable[str], look: Look) -> str:
    listed = look.words.listed(names)
    return tag("p", escaped(look.words.say(key, names=_NAMES)).replace(_NAMES, listed), "fp-next") if listed else ""
