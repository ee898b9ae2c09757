"""`fingerpost route` and `neighbours`: the contract of their JSON, what a person reads, and questions that can't be."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from functools import partial

import pytest
from fingerpost.cli import route as command
from fingerpost.cli.main import main
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.neighbours import neighbours
from fingerpost.music.routes import answer
from fingerpost.music.routes.search import SearchBoundError
from fingerpost.music.shape_text import read_shape, write_shape
from fingerpost.music.sound_change import SoundChange, sound_change


@pytest.fixture
def route(ask):
    """Runs `route`: exit code, standard output, standard error."""
    return partial(ask, "route")


def test_the_contract(route):
    code, out, err = route("--json", "320003", "xx0232")
    assert (code, err) == (0, "")
    (line,) = out.splitlines()
    answer = json.loads(line)
    assert list(answer) == ["from", "to", "length", "cost", "steps"]
    assert (answer["from"], answer["to"]) == ("320003/21---3", "xx0232/---132")
    assert answer["length"] == len(answer["steps"]) == 3
    board, shape = Fretboard(), read_shape(answer["from"])
    for step in answer["steps"]:
        assert list(step) == ["move", "shape", "symbol"]
        after = read_shape(step["shape"])
        found = {n.move_text: n.shape for n in neighbours(shape, board, Hand())}
        assert found.get(step["move"].split(", strum")[0], after).presses == after.presses
        shape = after
    assert write_shape(shape) == answer["to"]
    assert answer["steps"][-1]["symbol"] == "D"


def test_no_route_is_exit_code_1_and_says_why(route):
    code, out, err = route("--json", "x32010", "133211", "--no-bar")
    assert (code, err) == (1, "")
    answer = json.loads(out)
    assert list(answer)[:4] == ["from", "to", "unreachable", "because"]
    assert answer["unreachable"] is True
    assert answer["because"] == ["133211/134211 has a bar", "without --no-bar, it would take 3 moves"]
    assert [one["without"] for one in answer["instead"]] == [["no_bar"]]
    code, out, _ = route("x32010", "133211", "--no-bar")
    assert code == 1
    assert out.startswith("There is no route from x32010/-32-1- to 133211/134211.\n  - 133211/134211 has a bar\n")


def test_the_same_at_both_ends_is_no_move(route):
    assert json.loads(route("--json", "Am", "Am")[1])["length"] == 0
    assert json.loads(route("--json", "x32010", "x32010")[1])["steps"] == []
    assert json.loads(route("--json", "000000", "000000")[1])["cost"] == 0
    assert "0 moves" in route("x32010", "x32010")[1]


def test_chords_by_name(route):
    answer = json.loads(route("--json", "C", "Am")[1])
    assert (answer["from"], answer["to"], answer["length"]) == ("x32010/-32-1-", "x02210/--231-", 1)
    assert answer["steps"] == [{"move": "3 to G2", "shape": "x02210/--231-", "symbol": "Am"}]


def test_pairs_and_standard_input(route):
    assert len(route("--json", "C", "Am", "E7", "Am")[1].splitlines()) == 2
    same = route("--json", "-", stdin="C Am\n\nE7\nAm\n")[1]
    assert same == route("--json", "C", "Am", "E7", "Am")[1]
    code, out, err = route("--json", "-", stdin="C Am\nnonsense Am\nE7 Am\n")
    assert (code, len(out.splitlines())) == (2, 2)
    assert "'nonsense' is neither a shape nor a chord" in err


def test_what_a_person_reads(route):
    assert route("C", "Am")[1] == (
        "C to Am: 1 move, 2.99 points\n"
        "      start    x32010/-32-1-  C\n"
        "   1. 3 to G2  x02210/--231-  Am\n"
        "               A: C3 to A2, G: G3 to A3; 1 and 2 stay\n"
        "\n"
    )


def test_with_a_capo_what_is_heard_is_said(route):
    assert "A: Eb3 to C3, G: Bb3 to C4; 1 and 2 stay" in route("C", "Am", "--capo", "3")[1]


def test_alternatives_are_so_many_and_each_a_line(route):
    lines = route("--json", "C", "G", "--alternatives", "3")[1].splitlines()
    assert len(lines) == len(set(lines)) == 3
    assert route("C", "G", "--alternatives", "3")[1].count("C to G:") == 3


def test_only_what_a_course_teaches(route, tmp_path, monkeypatch):
    assert main(["new", str(tmp_path / "mine")]) == 0
    monkeypatch.chdir(tmp_path / "mine")
    answer = json.loads(route("--json", "C", "Am", "--taught")[1])
    assert answer["length"] == 1
    assert json.loads(route("--json", "C", "Am", "--taught", ".", "--only-taught")[1])["length"] == 1
    code, out, err = route("C", "F#m", "--taught")
    assert (code, out) == (2, "")
    assert "This course teaches no F#m; the chords that it teaches: " in err
    assert "C" in err


BAD = [
    (["C"], "'C' is only one end of a route. Try: `fingerpost route C Am`"),
    (["H", "Am"], "H is the note B"),
    (["am", "C"], "Try: Am, or a shape such as x32010"),
    (["Cmj7", "C"], "neither a shape nor a chord"),
    (["xx32010", "C"], "7 strings are given; expected 6, one fret or x a string. Try: --strings 7"),
    (["x320100", "C", "--strings", "6"], "--strings 7"),
    (["C", "Am", "--position", "9-5"], "--position 9-5 begins above where it ends. Try: --position 5-9"),
    (["C", "Am", "--position", "middle"], "expected `open` or two frets. Try: --position 5-9"),
    (["C", "Am", "--position", "0-3"], "Try: --position 1-3"),
    (["C", "Am", "--keep-ringing", "7"], "expected a string from 1 to 6, or its letter (E, A, D, G, B, e)"),
    (["C", "Am", "--key", "H"], "--key is 'H'"),
    (["C", "Am", "--at-most", "many"], "expected a number from 0 to 16"),
    (["C", "Am", "--at-most", "-1"], "expected a number from 0 to 16"),
    (["C", "Am", "--alternatives", "0"], "expected a number from 1 to 12"),
    (["x32010", "Am", "--avoid", "x32010"], "--avoid names x32010, where the route starts. Try: leave it out"),
    (["3x0003/22---3", "C"], "a finger damps a string; a route cannot count on that. Try: 3x0003/2----3"),
    (["C", "xxxxxx"], "In 'xxxxxx' no string sounds"),
    (["C", "Am", "--tuning", "nonsense"], "is no tuning"),
    (["--taught", "C", "Am", "E"], "--taught takes 'C' for the course's folder, so write it after the chords"),
    (["C", "Am", "--taught", "nowhere"], "There is no nowhere"),
    (["9" * 400, "C"], "is no shape"),
]


@pytest.mark.parametrize(("arguments", "says"), BAD, ids=lambda value: str(value)[:40])
def test_what_can_not_be_asked_is_said_with_the_nearest_that_can(refused, arguments, says):
    refused(["route", *arguments], says)


def test_a_chord_without_a_shape(route):
    code, out, _ = route("--json", "C13/D", "C", "--tuning", "bass")
    assert code == 1
    assert "C13/D has no shape on frets 1 to 12 of bass tuning; the nearest chord that has one is " in out


def test_other_numbers_of_strings(route):
    assert json.loads(route("--json", "xx32010", "xx02210", "--strings", "7")[1])["length"] == 1
    assert json.loads(route("--json", "C", "F", "--tuning", "ukulele")[1])["length"] > 0
    assert route("C", "G", "--strings", "4")[0] == 0


def test_a_search_that_is_ended_early_does_not_say_that_there_is_none(route, monkeypatch):
    def ended(*_):
        raise SearchBoundError
        yield

    monkeypatch.setattr(answer, "different_routes", ended)
    code, out, _ = route("x32010", "x02210")
    assert code == 1
    assert out.startswith("No route was found from x32010/-32-1- to x02210/--231-.\n  - after 30,000 hands")


def test_what_is_found_before_a_search_is_ended_is_said(route, monkeypatch):
    found = answer.different_routes

    def ended(*args):
        yield next(found(*args))
        raise SearchBoundError

    monkeypatch.setattr(answer, "different_routes", ended)
    code, out, _ = route("--json", "C", "Am", "--alternatives", "3")
    assert (code, len(out.splitlines())) == (0, 1)


def test_the_hand_of_the_course(route, tmp_path, monkeypatch):
    """A hand that lacks a finger, and one that is left none, which is no setting: the course then has an error."""
    assert main(["new", str(tmp_path / "mine")]) == 0
    settings = tmp_path / "mine" / "mkdocs.yml"
    text = settings.read_text()
    monkeypatch.chdir(tmp_path / "mine")
    settings.write_text(
        text.replace("- fingerpost:", "- fingerpost:\n      limits: {fingers: [2], thumb_strings: 0}", 1)
    )
    code, out, _ = route("000000", "002000/--1---", "--taught")
    assert code == 1
    assert "finger 1 is not among the fingers that this course uses (2)" in out
    assert route("000000", "002000/--2---", "--taught")[0] == 0
    settings.write_text(text.replace("- fingerpost:", "- fingerpost:\n      limits: {fingers: []}", 1))
    code, out, err = route("000000", "002000/--1---", "--taught")
    assert code == 0
    assert "has errors" in err
    assert "Try: `fingerpost check .`" in err


def test_an_interrupt_leaves_whole_lines(route, monkeypatch):
    answered, calls = command._answer, []

    def interrupted(*args):
        if calls:
            raise KeyboardInterrupt
        calls.append(args)
        return answered(*args)

    monkeypatch.setattr(command, "_answer", interrupted)
    code, out, _ = route("--json", "C", "Am", "E7", "Am")
    assert code == 130
    assert [json.loads(line)["length"] for line in out.splitlines()] == [1]


def test_the_same_in_every_process():
    said = {
        subprocess.run(
            [sys.executable, "-m", "fingerpost.cli", "route", "--json", "C", "F", "D", "G", "--alternatives", "2"],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("0", "1", "2")
    }
    assert len(said) == 1


def test_neighbours_by_what_becomes_of_the_sound(ask):
    out = ask("neighbours", "022000/-12---")[1]
    groups = {part.split(" (")[0]: part.splitlines()[1:] for part in out.strip().split("\n\n")[1:]}
    assert list(groups) == [change.capitalize() for change in SoundChange]
    board, start = Fretboard(), read_shape("022000/-12---")
    for change in SoundChange:
        rows = [line.split() for line in groups[change.capitalize()] if line]
        costs = [float(row[-2]) for row in rows]
        assert costs == sorted(costs)
        assert all(sound_change(start, read_shape(row[-3]), board) is change for row in rows)
    assert sum(len([line for line in rows if line]) for rows in groups.values()) == int(out.split()[0])


@pytest.mark.parametrize(
    ("after", "change"),
    [
        ("x32000/-32---", SoundChange.ADDED),  # C E G and B
        ("x32013/-32-14", SoundChange.SAME),
        ("x32310/-3241-", SoundChange.CHANGED),  # C E Bb
        ("x02210/--231-", SoundChange.CHANGED),  # A C E
        ("x02010/--2-1-", SoundChange.ADDED),  # A C E G
        ("332010/432-1-", SoundChange.SAME),
        ("x3201x/-32-1-", SoundChange.SAME),
        ("x3xx1x/-3--1-", SoundChange.SEVERAL),  # C
        ("x320xx/-32---", SoundChange.SAME),
        ("x3x01x/-3--1-", SoundChange.DROPPED),  # C G
        ("x33210/-3421-", SoundChange.SEVERAL),  # C F A E
    ],
)
def test_what_becomes_of_the_sound(after, change):
    """C is C E G; the notes of each shape by the fretboard, counted by hand."""
    assert sound_change(read_shape("x32010"), read_shape(after), Fretboard()) is change
