"""How fast chords are named: as a ratio to music21's chord naming in the same run.

Run it by hand: `python tests/bench/bench_naming.py`. It prints and asserts nothing: a time depends on the machine.
Each library is given its own objects beforehand. Three rows: chords that both can name, named for the first time
(nothing remembered) and again, as a course does that meets its chords often; and the shapes of a neck of twelve frets,
each named once, against music21 on a sample of the same shapes (most of which it can't name).
"""

from __future__ import annotations

import itertools
import platform
import time
import warnings
from collections.abc import Callable, Iterable, Sequence
from datetime import UTC, datetime
from typing import Any

from fingerpost.music import chord_name, chord_spelling, chord_writer, degree, ranking
from fingerpost.music.chord import Chord
from fingerpost.music.chord_name import names
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.pitch import COMMON_SPELLING, Pitch
from fingerpost.music.vocabulary import vocabulary

KINDS = (
    "major minor augmented diminished dominant major-seventh minor-seventh diminished-seventh half-diminished "
    "major-minor dominant-ninth major-ninth minor-ninth"
).split()
CHORDS = [Chord(root, kind) for root in COMMON_SPELLING for kind in KINDS]
NECK, REACH, HIGHEST, ONE_IN, SAMPLE = Fretboard(), 4, 12, 8, 200
Heard = tuple[int, ...]


def _seconds(work: Callable[[], object], repeats: int = 1) -> float:
    start = time.perf_counter()
    for _ in range(repeats):
        work()
    return (time.perf_counter() - start) / repeats


def _forget() -> None:
    remembered = (
        chord_name._names, ranking.ranked, chord_spelling._choices, chord_writer._ending, degree.interval_at,
    )  # fmt: skip
    for cached in remembered:
        cached.cache_clear()


def _name_all(asked: Iterable[tuple[frozenset[int], int]]) -> None:
    for pitch_classes, bass in asked:
        _ = names(pitch_classes, bass)[0].symbol


def _stacked(chord: Chord) -> Heard:
    """MIDI numbers of a chord in root position, from C3 up."""
    root = 48 + chord.root.pitch_class
    return tuple(root + interval.semitones for interval in chord.intervals)


def _shapes() -> list[Heard]:
    """What six strings sound, each silent, open or pressed in a window of four frets; one in eight of all."""
    found = []
    for low in range(1, HIGHEST - REACH + 2):
        frets = (None, 0, *range(low, low + REACH))
        for shape in itertools.islice(itertools.product(frets, repeat=NECK.strings), ONE_IN - 1, None, ONE_IN):
            pairs = zip(range(NECK.strings, 0, -1), shape, strict=True)
            heard = tuple(sorted(NECK.sounding_midi(string, fret) for string, fret in pairs if fret is not None))
            found += [heard] if heard else []
    return found


def _asked(heard: Iterable[Heard]) -> list[tuple[frozenset[int], int]]:
    return [(frozenset(midi % 12 for midi in one), one[0] % 12) for one in heard]


def _theirs(heard: Sequence[Heard]) -> float:
    """Seconds that music21 takes for one name."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from music21.chord import Chord as TheirChord
        from music21.harmony import chordSymbolFigureFromChord

        chords: list[Any] = [TheirChord([str(Pitch.from_midi(m)).replace("b", "-") for m in one]) for one in heard]
        return _seconds(lambda: [chordSymbolFigureFromChord(chord, True) for chord in chords]) / len(chords)


def _row(label: str, ours: float, theirs: float) -> None:
    print(f"{label:<46}{1e6 * ours:>10.1f}{1e6 * theirs:>12,.0f}{theirs / ours:>10,.0f} x")


def main() -> None:
    """Prints the table."""
    vocabulary()  # read once, as an import is
    chords, shapes = [_stacked(chord) for chord in CHORDS], _shapes()
    asked, all_asked = _asked(chords), _asked(shapes)
    _forget()
    first = _seconds(lambda: _name_all(asked)) / len(asked)
    again = _seconds(lambda: _name_all(asked), 100) / len(asked)
    _forget()
    neck = _seconds(lambda: _name_all(all_asked))
    theirs, theirs_on_neck = _theirs(chords), _theirs(shapes[:: len(shapes) // SAMPLE])
    print(f"{datetime.now(UTC):%Y-%m-%d}, {platform.machine()}, Python {platform.python_version()}")
    print(f"{'microseconds a name':<46}{'here':>10}{'music21':>12}{'ratio':>10}")
    _row(f"{len(chords)} chords, for the first time", first, theirs)
    _row(f"{len(chords)} chords, again", again, theirs)
    _row(f"{len(shapes):,} shapes ({len(set(all_asked)):,} sets over a bass)", neck / len(shapes), theirs_on_neck)
    print(f"all these shapes named in {neck:.2f} s")


if __name__ == "__main__":
    main()
