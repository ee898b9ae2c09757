"""The pages that the build adds to a course, by name; and of these its chords, the pictures, staying unhurt."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from fingerpost.course.model import ChordEntry, Course, Naming, ShapeMet, Step
from fingerpost.course.settings import Settings
from fingerpost.music.hand import Hand
from fingerpost.render.course_map import course_map
from fingerpost.render.course_page import CoursePage as CoursePage
from fingerpost.render.figure import figure_svg, picture
from fingerpost.render.hand_page import how_difficulty_is_reckoned
from fingerpost.render.legend import legend
from fingerpost.render.look import Look
from fingerpost.render.named import named
from fingerpost.render.next_chords import next_html
from fingerpost.render.parts import chord, heading, items, tag
from fingerpost.render.plain import escaped, html_id
from fingerpost.render.tuner_page import tuner
from fingerpost.render.voice import Voice

USUAL_HAND = Hand()


def how_to_read(look: Look) -> CoursePage:
    """The marks of the pictures, drawn by the same code as every other picture."""
    return CoursePage(look.words.say("reading.title"), tag("div", legend(look), "fp-page fp-reading"))


def staying_unhurt(look: Look, settings: Settings) -> CoursePage:
    """Warm-up, rests, pain, ears, and practice spread over days, with the sources of each claim."""
    said = look.words
    minutes = {
        "warm_up": _minutes(settings.warm_up_minutes, look),
        "rest": _minutes(settings.rest_minutes, look),
    }
    parts = [tag("p", escaped(said.say("unhurt.lead")), "fp-lead")]
    for section in said.several("unhurt.section"):
        body = "".join(tag("p", escaped(text.format(**minutes))) for text in section["paragraphs"])
        parts.append(tag("section", heading(look.heading, escaped(section["title"]), "fp-title") + body))
    return CoursePage(said.say("unhurt.title"), tag("div", "".join(parts), "fp-page fp-unhurt"))


def _minutes(number: int, look: Look) -> str:
    return look.words.count("minutes.practice", number) if number else look.words.say("minutes.none")


def chord_index(course: Course, look: Look, hand: Hand = USUAL_HAND) -> CoursePage:
    """Every chord, where it is first taught, and every shape of it, each linked to the steps where it stands.

    hand: which untaught chords are easy to reach hangs on it.
    """
    said = look.words
    places = _places(course)
    idents = _idents(course, look)
    after = next_html(course, hand, idents, look)
    if not course.chords:
        body = tag("p", escaped(said.say("index.none")))
    else:
        jumps = items(_jump(entry, idents[entry.symbol], look) for entry in course.chords)
        contents = tag("nav", tag("ul", jumps), "fp-index-contents", aria_label=said.say("index.contents"))
        entries = "".join(
            _entry(entry, idents[entry.symbol], places, look, after[entry.chord]) for entry in course.chords
        )
        body = tag("p", escaped(said.say("index.lead")), "fp-lead") + contents + entries
    return CoursePage(said.say("index.title"), tag("div", body, "fp-page fp-index"))


@dataclass(frozen=True)
class _Place:
    """A step as a link names it."""

    title: str
    step: Step


def _places(course: Course) -> dict[tuple[str, str, str], _Place]:
    return {
        (lesson.file, block.id, step.id): _Place(block.title or lesson.title or block.id, step)
        for lesson in course.lessons
        for block in lesson.blocks
        for step in block.steps
    }


def index_ids(course: Course, look: Look) -> frozenset[str]:
    """The ids of the entries of the index of chords, which links may lead to."""
    return frozenset(_idents(course, look).values())


def _idents(course: Course, look: Look) -> dict[str, str]:
    """An id for each chord, from its name in words, since `#` and `/` serve badly in an address."""
    voice = Voice(look.words, style=look.style, marks=True)
    out: dict[str, str] = {}
    for entry in course.chords:
        ident = html_id("chord-" + voice.chord_aloud(entry.chord).casefold())
        out[entry.symbol] = ident if ident not in out.values() else f"{ident}-{len(out)}"
    return out


def _jump(entry: ChordEntry, ident: str, look: Look) -> str:
    voice = Voice(look.words, style=look.style, marks=True)
    return tag("a", chord(entry.chord, voice, ""), href=f"#{ident}")


def _entry(entry: ChordEntry, ident: str, places: dict[tuple[str, str, str], _Place], look: Look, after: str) -> str:
    said, voice = look.words, Voice(look.words, style=look.style, marks=True)
    name = heading(look.heading, chord(entry.chord, voice), "fp-arm")
    notes = said.listed(f"{voice.note(tone.note)} ({voice.interval_sign(tone.interval)})" for tone in entry.chord.tones)
    first = f"{escaped(said.say('index.first'))} {_link(entry.first, places, look)}."
    shapes = items(
        (_shape(met, f"{ident}-{n}", entry, places, look) for n, met in enumerate(entry.shapes, 1)), "fp-shape"
    )
    words = tag("p", named(said.say("index.notes", notes=notes))) + tag("p", first, "fp-first") + after
    return tag("section", name + words + tag("ul", shapes, "fp-shapes"), "fp-index-entry", id=ident)


def _shape(met: ShapeMet, ident: str, entry: ChordEntry, places: dict[tuple[str, str, str], _Place], look: Look) -> str:
    drawn = figure_svg(picture(met.shape, met.fretboard, Naming(entry.chord), look), ident, small=True)
    links = escaped(look.words.say("index.between")).join(_links(met.places, places, look))
    caption = f"{_neck(met, look)}{escaped(look.words.say('index.met'))} {links}."
    return tag("figure", drawn + tag("figcaption", caption), "fp-figure")


def _neck(met: ShapeMet, look: Look) -> str:
    """The tuning, where it is not the standard one; the picture shows a capo."""
    tuning = met.fretboard.tuning
    if tuning.name == "standard":
        return ""
    voice = look.voice(met.fretboard)
    pitches = " ".join(voice.note(pitch.note) for pitch in tuning.pitches)
    return named(look.words.say("index.tuning", pitches=pitches)) + " "


def _links(
    met: Sequence[tuple[str, str, str]], places: dict[tuple[str, str, str], _Place], look: Look
) -> Iterator[str]:
    """A link a step; only the first of a block's steps in a row carries the block's title."""
    for before, place in zip((None, *met), met, strict=False):
        same = before is not None and before[:2] == place[:2]
        yield _link(place, places, look, "index.same_block" if same else "index.place")


def _link(
    place: tuple[str, str, str],
    places: dict[tuple[str, str, str], _Place],
    look: Look,
    key: str = "index.place",
) -> str:
    lesson, block, step = place
    found = places.get(place)
    text = look.words.say(key, title=found.title, number=found.step.ordinal + 1) if found else block
    return tag("a", escaped(text), "fp-link", href=look.links.step(lesson, block, html_id(step)))


MAKERS: Mapping[str, Callable[[Course, Settings, Look], CoursePage]] = {
    "chords.md": lambda course, settings, look: chord_index(course, look, settings.hand),
    "course-map.md": course_map,
    "reading-the-pictures.md": lambda course, settings, look: how_to_read(look),
    "tuner.md": tuner,
    "staying-unhurt.md": lambda course, settings, look: staying_unhurt(look, settings),
    "how-difficulty-is-reckoned.md": lambda course, settings, look: how_difficulty_is_reckoned(settings, look),
}
"""How each of these pages is made, by its name among the sources."""
