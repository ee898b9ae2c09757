"""Names of a course in every style."""

from __future__ import annotations

import json

from fingerpost.render.name_styles import FIELDS, names_in_styles, styles


def written(name: str, **chosen: str) -> str:
    table = json.loads(names_in_styles([name]))
    plain = {"notes": "english", "major_seventh": "maj7", "diminished": "dim", "minor": "m", **chosen}
    return table["names"][name][table["styles"].index(" ".join(plain[field] for field in FIELDS))]


def test_there_is_a_form_for_each_style_and_each_is_asked_for_once() -> None:
    table = json.loads(names_in_styles(["Bbm", "C", "C"]))
    assert len(table["styles"]) == len(set(table["styles"])) == len(styles()) == 3 * 2 * 2 * 2
    assert list(table["names"]) == ["Bbm", "C"]
    assert all(len(forms) == len(styles()) for forms in table["names"].values())


def test_notes_in_german_and_in_fixed_solfege() -> None:
    # B natural is H and B flat is B in German; sharps end in -is, flats in -es, but Es and As (DIN 1318, from memory).
    german = {"B": "H", "Bb": "B", "F#": "Fis", "Eb": "Es", "Ab": "As", "Db": "Des", "b": "h", "e": "e"}
    assert {name: written(name, notes="german") for name in german} == german
    solfege = {"C": "Do", "Bb": "Si♭", "F#": "Fa♯", "G": "Sol", "e": "mi"}
    assert {name: written(name, notes="solfege") for name in solfege} == solfege


def test_chords_take_both_the_names_of_notes_and_the_signs() -> None:
    assert written("F#m7/B", notes="german") == "Fism7/H"
    assert written("Bbmaj7", notes="german", major_seventh="triangle") == "BΔ7"
    assert written("Cdim7/Eb", diminished="circle") == "C°7/E♭"
    assert written("Am7", notes="solfege", minor="-") == "La-7"
