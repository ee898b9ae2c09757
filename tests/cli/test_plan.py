"""`fingerpost plan` and `chain`: the contract of their JSON, what a person reads, and questions that can't be."""

from __future__ import annotations

import json
import re
import sys

import pytest
from fingerpost.cli import plan as command
from fingerpost.cli import progress
from fingerpost.music.plans.plan import Planning

KEYS = ["chords", "length", "cost", "bound", "proven"]


def test_the_contract_of_a_plan(ask):
    code, out, err = ask("plan", "--json", "C", "Am", "F")
    assert (code, err) == (0, "")
    (line,) = out.splitlines()
    plan = json.loads(line)
    assert list(plan) == [*KEYS, "difficulty", "climb", "from", "steps"]
    assert sorted(plan["chords"]) == ["Am", "C", "F"]
    assert plan["length"] == plan["bound"] == len(plan["steps"])
    assert plan["proven"] is True
    assert all(list(step) == ["move", "shape", "symbol", "passing"] for step in plan["steps"])
    met = [step["symbol"] for step in plan["steps"] if not step["passing"]]
    assert [plan["chords"][0], *met] == plan["chords"]
    assert json.loads(ask("plan", "--json", "-", stdin="C Am\nF\n")[1]) == plan


def test_what_a_person_reads_of_a_plan(ask):
    first, second, rest = ask("plan", "C", "Am")[1].split("\n", 2)
    assert first == "C, Am: 1 move"
    good = "No plan has fewer moves, and none of as few is easier."
    assert re.fullmatch(rf"{good} [0-9.]+ points in all, [0-9.]+ of them climbed.", second)
    assert rest == ("\n      start    x32010/-32-1-  C\n   1. 3 to G2  x02210/--231-  Am\n\n")


def test_where_a_plan_begins(ask):
    assert json.loads(ask("plan", "--json", "C", "--start", "Am")[1])["chords"] == ["Am", "C"]
    shape = json.loads(ask("plan", "--json", "C", "--start", "x02210/--231-")[1])
    assert (shape["from"], shape["length"]) == ("x02210/--231-", 1)
    again = ask("plan", "--json", "C", "Am", "--start", "Am")
    assert (json.loads(again[1])["chords"], again[2]) == (["Am", "C"], "")


def test_one_chord_is_a_plan_of_no_move(ask):
    plan = json.loads(ask("plan", "--json", "C")[1])
    assert (plan["chords"], plan["length"], plan["steps"], plan["proven"]) == (["C"], 0, [], True)


def test_the_same_chord_twice_is_met_once(ask):
    code, out, err = ask("plan", "--json", "C", "Am", "C")
    assert (code, json.loads(out)["chords"]) == (0, ["C", "Am"])
    assert err == "fingerpost: C is named twice; it is met once.\n"


NONE = [
    (["plan", "C", "--hardest", "1"], " points to hold, over --hardest"),
    (["plan", "C", "Am", "--key", "D"], "C has no shape that keeps to --key"),
    (["plan", "C", "C13/D", "--tuning", "bass"], "the nearest chord that has one is "),
    (["plan", "C", "F", "--named", "--no-bar", "--position", "1-1"], "F has no shape"),
]


@pytest.mark.parametrize(("arguments", "says"), NONE, ids=lambda value: str(value)[:40])
def test_where_there_is_no_plan_it_is_said_why(ask, arguments, says):
    code, out, _ = ask(*arguments)
    assert code == 1
    assert says in out
    answer = json.loads(ask(*arguments, "--json")[1])
    assert answer["unreachable"] is True
    assert any(says in reason for reason in answer["because"])


BAD = [
    (["plan", "-"], "No chords were named. Try: `fingerpost plan C Am F`"),
    (["plan", "C", "H"], "H is the note B"),
    (["plan", "am"], "Try: Am, or a shape such as x32010"),
    (["plan", "C", "xx32010"], "Try: --strings 7"),
    (["plan", "C", "--strings", "9"], "expected 4 to 8"),
    (["plan", "C", "--hardest", "soft"], "--hardest is 'soft'; expected points from 0 to 1000. Try: --hardest 6"),
    (["plan", "C", "--hardest", "nan"], "expected points from 0 to 1000"),
    (["plan", *(["C"] * 3), "--position", "9-5"], "Try: --position 5-9"),
    (["chain", "--length", "0"], "expected a number of chords from 1 to 100"),
    (["chain", "--length", "many"], "expected a number of chords from 1 to 100"),
    (["chain", "--length", "4", "--strum", "Q-e"], "expected strings from 6 to 1 or their letters. Try: --strum 5-1"),
    (["chain", "--length", "4", "--start", "C", "--hardest", "0"], "C has no plainly named shape"),
    (["chain", "--length", "4", "--start", "x32010", "--strum", "D-e"], "and strikes these strings"),
]


@pytest.mark.parametrize(("arguments", "says"), BAD, ids=lambda value: str(value)[:40])
def test_what_can_not_be_asked_is_said_with_the_nearest_that_can(refused, arguments, says):
    refused(arguments, says)


def test_too_many_chords_for_any_plan(ask):
    roots = [root + sign for root in "CDEFGAB" for sign in ("", "b", "#")]
    kinds = ("", "m", "7", "m7", "maj7", "6", "m6", "9", "m9", "sus2", "sus4", "dim", "aug", "7sus4", "add9", "maj9")
    kinds += ("13", "11", "m11", "m7b5", "dim7")
    code, _, err = ask("plan", *(root + kind for root in roots for kind in kinds))
    assert code == 2
    assert "441 chords are too many for one plan; expected 400 at most" in err


def test_seven_strings(ask):
    assert json.loads(ask("plan", "--json", "xx32010", "xx02210", "--strings", "7")[1])["length"] == 1


def test_an_interrupt_keeps_the_best_so_far(ask, monkeypatch):
    tell = Planning.__post_init__

    def stopping(self):
        tell(self)
        run = self.run

        def interrupted():
            def stop(now):
                if now.plan is not None:
                    raise KeyboardInterrupt

            self.tell = stop
            return run()

        self.run = interrupted

    monkeypatch.setattr(Planning, "__post_init__", stopping)
    code, out, err = ask("plan", "--json", "C", "Am", "F", "Dm")
    plan = json.loads(out)
    assert code == 130
    assert "this is the best so far" in err
    assert (sorted(plan["chords"]), plan["proven"]) == (["Am", "C", "Dm", "F"], False)
    assert plan["bound"] <= plan["length"]


def test_a_bar_is_drawn_on_a_terminal_only(capsys, monkeypatch):
    monkeypatch.setattr(progress, "PATIENCE", -1.0)
    monkeypatch.setattr(progress, "EVERY", -1.0)
    with progress.bar("4 chords") as shown:
        shown.show(0.5, "at least 3 moves")
    assert capsys.readouterr().err == ""
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    with progress.bar("4 chords") as shown:
        shown.show(0.5, "at least 3 moves")
    err = capsys.readouterr().err
    assert "4 chords [############............] at least 3 moves" in err
    assert err.endswith("\r\x1b[K")


def test_a_chain(ask):
    arguments = ["--length", "5", "--start", "Am", "--key", "C", "--no-bar", "--position", "1-3", "--hardest", "4"]
    code, out, err = ask("chain", "--json", *arguments)
    assert (code, err) == (0, "")
    chain = json.loads(out)
    assert list(chain) == [*KEYS, "from", "steps"]
    assert (chain["chords"][0], chain["length"], chain["bound"], chain["proven"]) == ("Am", 5, 5, True)
    assert len({symbol.split("/")[0] for symbol in chain["chords"]}) == 5 == len(chain["steps"]) + 1
    said = ask("chain", *arguments)[1]
    assert said.startswith("5 chords, ")
    assert ask("chain", *arguments)[1] == said


def test_a_chain_that_is_longer_than_there_is(ask):
    code, out, _ = ask(
        "chain", "--length", "30", "--start", "Am", "--key", "C", "--tuning", "ukulele", "--position", "1-2", "--no-bar"
    )
    assert code == 1
    assert "No chain is longer" in out


def test_no_other_command_waits_for_what_plans_need():
    assert not [name for name in vars(command) if name in ("Planning", "plan_options", "plan_said")]
