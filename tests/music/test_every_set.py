"""Every pitch-class set over every bass, 24,576 cases: each has a name, and its exact symbol reads back to it."""

from __future__ import annotations

import pytest
from fingerpost.music.chord_name import ChordName, names
from fingerpost.music.chord_symbol import read

SETS = [frozenset({0, *(step for step in range(1, 12) if rest >> (step - 1) & 1)}) for rest in range(2048)]


def _reads_back(name: ChordName, classes: frozenset[int], bass: int) -> bool:
    chord = read(name.exact)
    return chord == name.exact_chord and chord.pitch_classes == classes and chord.bass_pitch_class == bass


def _is_readable(name: ChordName) -> bool:
    return all(abs(tone.note.alter) <= 2 for tone in name.exact_chord.tones)


@pytest.mark.parametrize("bass", range(12))
def test_the_first_name_of_every_set_reads_back_and_needs_no_three_accidentals(bass: int) -> None:
    wrong = []
    for steps in SETS:
        classes = frozenset((bass + step) % 12 for step in steps)
        found = names(classes, bass)
        if not (found and _reads_back(found[0], classes, bass) and _is_readable(found[0])):
            wrong.append((classes, bass))
    assert wrong == []


def test_all_names_of_every_set_over_one_bass_read_back() -> None:
    """The ranking is the same over every bass, so one bass shows every structure that is ever named."""
    wrong = [name.exact for classes in SETS for name in names(classes, 0) if not _reads_back(name, classes, 0)]
    assert wrong == []
