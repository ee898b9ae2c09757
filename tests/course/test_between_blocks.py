"""What passes from block to block: starts, retuning, mentions, the index, the ledger, what is broken."""

from __future__ import annotations

import pytest
from fingerpost.course.ledger import ledger
from fingerpost.course.retuning import retuning
from fingerpost.diagnostics import Code
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape_text import write_shape
from fingerpost.music.tuning import NAMED, STANDARD

from .read_course import course

AM = "```moves\nid: am\nstart: x02210/--231- = Am\nsteps:\n- 3 off = Am7\n- 3 to A3 = C\n```\n"


@pytest.mark.parametrize(
    ("start", "shape"),
    [
        ("after am", "x32010/-32-1-"),
        ("after open-wide", "x02010/--2-1-"),
        ("as taught Am7", "x02010/--2-1-"),
        ("open", "000000"),
        ("x32010/-32-1-", "x32010/-32-1-"),
        ("1 E1-e1, 3 A3, 4 D3, 2 G2", "133211/134211"),
        ("2 E3, mute A by 2, strum E-G = G5", "3x00xx/22----"),
    ],
)
def test_starts(start: str, shape: str) -> None:
    first = AM.replace("- 3 off = Am7", "- move: 3 off\n  name: Am7\n  id: open-wide")
    made, found = course(first, f"```moves\nid: b\nstart: {start}\nsteps:\n- hold\n```\n")
    assert found == []
    assert write_shape(made.lessons[1].blocks[0].steps[0].shape) == shape


def test_the_key_strum_sets_what_is_struck_at_the_start() -> None:
    made, found = course("```moves\nid: b\nstrum: D-e\nstart: 1 G2, 3 B3, 2 e2 = D\nsteps:\n- hold\n```\n")
    assert found == []
    assert write_shape(made.lessons[0].blocks[0].steps[0].shape) == "xx0232/---132"


def test_retuning_there_and_back() -> None:
    """Standard E2 A2 D3 G3 B3 E4 and DADGAD D2 A2 D3 G3 A3 D4 (common practice)."""
    dadgad = Fretboard(NAMED["DADGAD"])
    there, back = retuning(Fretboard(STANDARD), dadgad), retuning(dadgad, Fretboard(STANDARD, 2))
    assert there is not None
    assert back is not None
    assert there.strings == ((6, "E2", "D2"), (2, "B3", "A3"), (1, "E4", "D4"))
    assert back.strings == ((6, "D2", "E2"), (2, "A3", "B3"), (1, "D4", "E4"))
    assert (back.capo_before, back.capo_after) == (0, 2)
    assert retuning(dadgad, dadgad) is None


def test_the_prompt_stands_at_the_block_that_differs_from_the_one_before() -> None:
    other = "```moves\nid: {}\n{}start: open\nsteps:\n- hold\n```\n"
    keys = {"a": "", "b": "tuning: drop D\n", "c": "tuning: drop D\ncapo: 2\n", "d": ""}
    pages = [other.format(name, own) for name, own in keys.items()]
    made, found = course(*pages)
    assert found == []
    prompts = [lesson.blocks[0].retuning for lesson in made.lessons]
    assert prompts[0] is None
    assert [(p.strings, p.capo_before, p.capo_after) for p in prompts[1:] if p] == [
        (((6, "E2", "D2"),), 0, 0),
        ((), 0, 2),
        (((6, "D2", "E2"),), 2, 0),
    ]


def test_mentions_lead_to_their_steps() -> None:
    text = f"{AM}\nYou hold `now: C`; before it was `chord: Am7`, in `step: am Am7`; see `step: late` and `chord: G`.\n"
    late = "```moves\nid: late\nstart: 320003/21---3 = G\nsteps:\n- hold\n```\n"
    made, found = course(text, late)
    assert found == []
    now, chord, step, whole, later = made.lessons[0].mentions
    steps = made.lessons[0].blocks[0].steps
    assert (now.step, chord.step, step.step) == (steps[2], steps[1], steps[1])
    assert (step.lesson, step.block_id, step.words) == ("p1.md", "am", "am Am7")
    assert (whole.lesson, whole.block_id) == ("p2.md", "late")
    assert later.step == made.lessons[1].blocks[0].steps[0]


def test_a_chord_is_drawn_as_last_taught_before_it_is_mentioned() -> None:
    shapes = ["x32010/-32-1-", "x35553/-13331"]
    one = "```moves\nid: c{}\nstart: {} = C\nsteps:\n- hold\n```\n\nA `chord: C`.\n"
    blocks = [one.format(number, shape) for number, shape in enumerate(shapes)]
    made, found = course("\n".join(blocks))
    assert found == []
    drawn = [mention.step.shape for mention in made.lessons[0].mentions if mention.step]
    assert [write_shape(shape) for shape in drawn] == shapes


def test_the_index_has_every_chord_with_every_shape() -> None:
    made, _ = course(
        AM, "```moves\nid: c\nstart: x35553/-13331 = C\nteaches: [C]\nsteps:\n- hold passing\n- rest\n```\n"
    )
    entries = {entry.symbol: entry for entry in made.chords}
    assert list(entries) == ["Am", "Am7", "C"]
    assert [write_shape(met.shape) for met in entries["C"].shapes] == ["x32010/-32-1-", "x35553/-13331"]
    assert entries["C"].first[:2] == ("p2.md", "c")
    assert len(entries["C"].shapes[1].places) == 1


def test_the_ledger_notes_first_uses() -> None:
    made, _ = course(AM, "```moves\nid: f\ncapo: 2\nstart: 133211/134211 = F\nsteps:\n- 1 to e1\n- 1 to e2\n```\n")
    first = {(entry.use.kind, entry.word): (entry.file, entry.line) for entry in ledger(made)}
    assert first["chord", "Am"] == ("p1.md", 3)
    assert first["chord", "C"] == ("p1.md", 6)
    assert first["fret", "fret 3"] == ("p1.md", 6)
    assert first["finger", "finger 4"] == ("p2.md", 4)
    assert first["fret", "fret 5"] == ("p2.md", 4)
    assert first["technique", "bar"] == first["technique", "capo"] == ("p2.md", 4)
    assert first["technique", "hinge"] == ("p2.md", 6)
    assert first["technique", "slide"] == ("p2.md", 7)
    assert ("technique", "mute") not in first


def test_a_block_with_an_error_is_shown_as_a_notice_and_the_rest_is_built() -> None:
    made, found = course(AM.replace("- 3 off = Am7", "- 4 off = Am7"), AM.replace("id: am", "id: good"))
    assert [finding.code for finding in found] == [Code.FINGER_NOT_DOWN]
    broken = made.lessons[0].broken[0]
    assert made.lessons[0].blocks == ()
    assert broken.id == "am"
    assert broken.messages == ("Line 5: Finger 4 is not down. Expected: a finger that is down: 1, 2 and 3.",)
    assert "- 4 off = Am7" in broken.source
    assert broken.partial is not None
    assert [step.ordinal for step in broken.partial.steps] == [0, 1, 2]
    assert len(made.lessons[1].blocks) == 1


def test_an_error_of_reading_breaks_its_block_alone() -> None:
    made, _ = course(AM.replace("- 3 off = Am7", "- 3 of = Am7") + "\n" + AM.replace("id: am", "id: good"))
    assert [broken.id for broken in made.lessons[0].broken] == ["am"]
    assert [block.id for block in made.lessons[0].blocks] == ["good"]


def test_decided_ties_are_recorded() -> None:
    made, _ = course(AM, options={"ties": ["Am7 not C6"]})
    assert made.decided == (("Am7", "C6"),)


def test_what_goes_on_from_a_doubtful_block_is_not_shown_as_if_it_were_sure() -> None:
    """Whether finger 2 or 4 was meant nobody can tell, so the second block may be wrong from its start."""
    first = "```moves\nid: a\nstart: x02210/--231- = Am\nsteps:\n- 4 off\n```\n\n"
    second = "```moves\nid: b\nstart: previous\nteaches: [Am7]\nsteps:\n- hold ~ Am7\n- hold\n```\n"
    made, found = course(first + second)
    assert [finding.code for finding in found] == [Code.FINGER_NOT_DOWN]
    assert [broken.id for broken in made.lessons[0].broken] == ["a", "b"]
    assert made.lessons[0].broken[1].messages == ("It goes on from the block `a`, which can't be made out.",)


def test_the_next_block_tells_what_was_meant_in_this_one() -> None:
    first = "```moves\nid: a\nstart: x02210/--231- = Am\nsteps:\n- 4 off\n```\n\n"
    made, found = course(first + "```moves\nid: b\nstart: previous\nsteps:\n- hold = Am7\n```\n")
    assert [(finding.span.line, finding.code, finding.fix) for finding in found] == [(5, Code.FINGER_NOT_DOWN, "3 off")]
    assert [broken.id for broken in made.lessons[0].broken] == ["a"]
    assert [block.id for block in made.lessons[0].blocks] == ["b"]


def test_a_slip_that_only_the_next_block_denies_is_told_where_it_stands() -> None:
    """The first block lifts finger 2, the second names what sounds without finger 3 instead."""
    first = "```moves\nid: a\nstart: x02210/--231- = Am\nsteps:\n- 2 off\n- 4 to B3\n```\n\n"
    second = "```moves\nid: b\nstart: previous\nsteps:\n- 4 off = Am7\n- 3 to G2 = Am\n```\n"
    made, found = course(first + second)
    assert [(f.span.line, f.span.column, f.code, f.fix) for f in found] == [(5, 3, Code.NAME_IS_WRONG, "3 off")]
    assert [broken.id for broken in made.lessons[0].broken] == ["b"]


def test_a_name_that_agrees_ends_the_doubt_for_the_next_block() -> None:
    first = "```moves\nid: a\nstart: x02210/--231- = Am\nsteps:\n- 4 off\n- hold = Am\n```\n\n"
    made, _ = course(first + "```moves\nid: b\nstart: previous\nsteps:\n- 3 off = Am7\n```\n")
    assert [broken.id for broken in made.lessons[0].broken] == ["a"]
    assert [block.id for block in made.lessons[0].blocks] == ["b"]
