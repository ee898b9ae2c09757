"""What a person and what a program is told about findings, whole messages at a time."""

import json
import re

from fingerpost.diagnostics import Code, Diagnostic, Severity, Span
from fingerpost.report import json as as_json
from fingerpost.report import paint
from fingerpost.report import text as as_text
from fingerpost.report.visible import visible

from .findings import FOUND, HOSTILE

LINE = "- 3 off = G6"
NOTE = Diagnostic(Span("course/fog.md", 2, 1, 2, 1), Severity.NOTE, Code.BAD_VALUE, "A long way")


def lines(findings, line=LINE):
    return list(as_text.write(findings, lambda file, number: line if number == 14 else None, 8))


def test_a_finding_shows_its_place_its_line_and_its_fix():
    assert lines([FOUND]) == [
        "course/fog.md:14:3: error: Finger 3 is not down. [finger-not-down]",
        "  14 | - 3 off = G6",
        "     |   ^^^^^",
        "  expected: a finger that is down: 1 or 2",
        "  fix: 2 off",
        "",
        "1 error in 8 pages.",
    ]


def test_counts_are_by_weight():
    assert lines([NOTE, FOUND, FOUND])[-1] == "2 errors, 1 note in 8 pages."
    assert lines([]) == ["Nothing to put right in 8 pages."]


def test_tabs_keep_the_mark_under_its_word():
    assert lines([FOUND], "\t\t3 off")[2].endswith("\t\t^^^^^")


def test_a_source_can_not_drive_the_terminal():
    shown = "\n".join(lines([FOUND], "- \x1b[31m3 off\x07"))
    assert "\x1b" not in shown
    assert "\x07" not in shown


def test_a_long_line_is_shown_around_the_mark():
    far = Diagnostic(Span("a.md", 14, 5001, 14, 5005), Severity.ERROR, Code.BAD_VALUE, "No")
    shown = lines([far], "x" * 5000 + "HERE" + "y" * 5000)
    assert "HERE" in shown[1]
    assert len(shown[1]) < 140
    assert shown[2].index("^") == shown[1].index("HERE")
    assert shown[2].count("^") == 4


def test_json_has_exactly_the_keys_of_the_contract():
    assert [json.loads(line) for line in as_json.write([FOUND])] == [
        {
            "file": "course/fog.md",
            "line": 14,
            "column": 3,
            "end_line": 14,
            "end_column": 8,
            "severity": "error",
            "code": "finger-not-down",
            "message": "Finger 3 is not down",
            "expected": "a finger that is down: 1 or 2",
            "fix": "2 off",
        }
    ]


def test_one_line_for_a_log():
    assert as_text.one_line(FOUND) == (
        "course/fog.md:14:3: Finger 3 is not down. "
        "Expected: a finger that is down: 1 or 2. Fix: 2 off. [finger-not-down]"
    )


def test_colours_only_repeat_the_words():
    coloured = list(as_text.write([FOUND], lambda file, number: LINE, 8, paint.coloured))
    assert [re.sub(r"\x1b\[[0-9;]*m", "", line) for line in coloured] == lines([FOUND])
    assert "\x1b[1;31merror\x1b[0m" in coloured[0]


def test_control_characters_are_seen_wherever_they_stand():
    shown = "".join([*as_text.finding_lines(HOSTILE, lambda file, number: None), as_text.one_line(HOSTILE)])
    assert "\u241b[31m" in shown
    assert shown.isprintable()


def test_what_is_made_visible_keeps_its_length():
    for text in ("plain é 字", "\x1b[2J\x07\x7f", "\u202eabc\u2069", "\x85\ud800", "a\tb"):
        assert len(visible(text)) == len(text)
        assert visible(text).replace("\t", "").isprintable()
