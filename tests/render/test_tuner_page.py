"""The page for tuning: every tuning of the course once, each string with its note and its frequency."""

from __future__ import annotations

from dataclasses import replace

from fingerpost.course.model import Block, Course, Lesson
from fingerpost.course.settings import Settings
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.tuning import NAMED, STANDARD, parse_tuning
from fingerpost.render.look import Links, Look
from fingerpost.render.tuner_page import tuner

from .examples import NASTY, loosening
from .markup import Markup


def lesson(name: str, *necks: Fretboard) -> Lesson:
    blocks = tuple(replace(loosening(), id=f"{name}-{n}", fretboard=neck) for n, neck in enumerate(necks))
    return Lesson(f"{name}.md", name, blocks)


def rows(page: Markup) -> list[tuple[str, str]]:
    return [(row["data-string"], row["data-midi"]) for row in page.named("tr") if "data-midi" in row]


def test_a_tuning_is_shown_once_whatever_the_capo_and_leads_to_each_lesson() -> None:
    low = parse_tuning("drop D")
    course = Course((lesson("one", Fretboard(), Fretboard(capo=3)), lesson("two", Fretboard(low), Fretboard())))
    look = Look(links=Links(step=lambda file, block, step: f"{file}/{block}"))
    page = Markup(tuner(course, Settings(), look).html)
    assert [section["id"] for section in page.named("section")] == [
        "tuning-40-45-50-55-59-64",
        "tuning-38-45-50-55-59-64",
    ]
    assert [link["href"] for link in page.named("a")] == ["one.md/one-0", "two.md/two-1", "two.md/two-0"]
    assert rows(page)[:6] == [("6", "40"), ("5", "45"), ("4", "50"), ("3", "55"), ("2", "59"), ("1", "64")]


def test_frequencies_of_standard_tuning() -> None:
    # Common practice; the frequencies by f = 440 * 2^((m - 69) / 12), ISO 16:1975.
    page = tuner(Course(()), Settings(), Look()).html
    for hertz in ("82.41", "110.00", "146.83", "196.00", "246.94", "329.63"):
        assert f"<td>{hertz} Hz</td>" in page


def test_a_course_without_blocks_shows_its_own_tuning() -> None:
    page = Markup(tuner(Course(()), Settings(tuning=parse_tuning("open G")), Look()).html)
    assert [midi for _, midi in rows(page)] == ["38", "43", "50", "55", "59", "62"]
    assert "Open G: " in "".join(page.words)


def test_every_tuning_with_a_name_in_words_is_called_by_it() -> None:
    spelled = {name for name in NAMED if name == name.upper()}  # named by its notes: they are shown anyway
    for name, tuning in NAMED.items():
        words = "".join(Markup(tuner(Course(()), Settings(tuning=tuning), Look()).html).words)
        assert (name.casefold() in words.casefold()) == (name not in spelled), name


def test_a_title_is_text() -> None:
    block: Block = loosening()
    page = Markup(tuner(Course((Lesson("x.md", NASTY, (block,)),)), Settings(), Look()).html)
    assert not page.named("script")
    assert STANDARD.strings == len(rows(page))
