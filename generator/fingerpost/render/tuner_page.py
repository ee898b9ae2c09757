"""The page for tuning: the strings of every tuning that a course uses, with what each is tuned to."""

from __future__ import annotations

from collections.abc import Iterator

from fingerpost.course.model import Block, Course, Lesson
from fingerpost.course.settings import Settings
from fingerpost.music.tuning import Tuning
from fingerpost.render.course_page import CoursePage
from fingerpost.render.look import Look
from fingerpost.render.named import named, unmarked
from fingerpost.render.parts import heading, items, tag
from fingerpost.render.plain import escaped, html_id
from fingerpost.render.voice import Voice


def tuner(course: Course, settings: Settings, look: Look) -> CoursePage:
    """Each tuning with its strings, in the order of the course; the course's own where no lesson has a block.

    The scripts of the theme make a tuner of it. Without them it still says what every string is tuned to.
    """
    used = _used(course)
    tunings = [*used] or [settings.tuning]
    said = look.words
    lead = tag("p", escaped(said.say("tuner.lead")), "fp-lead")
    sections = "".join(_section(tuning, used.get(tuning, []), look) for tuning in tunings)
    how = "".join(tag("p", escaped(text)) for text in said.several("tuner.how"))
    care = heading(look.heading, escaped(said.say("tuner.how_title")), "fp-title") + how
    return CoursePage(said.say("tuner.title"), tag("div", lead + sections + care, "fp-page fp-tuner"))


def _used(course: Course) -> dict[Tuning, list[tuple[Lesson, Block]]]:
    """The tunings in the order in which they are met, each with the first block of every lesson that has it."""
    out: dict[Tuning, list[tuple[Lesson, Block]]] = {}
    for lesson in course.lessons:
        for block in lesson.blocks:
            there = out.setdefault(block.fretboard.tuning, [])
            if all(other is not lesson for other, _ in there):
                there.append((lesson, block))
    return out


def _section(tuning: Tuning, places: list[tuple[Lesson, Block]], look: Look) -> str:
    """One tuning: its notes as a heading, its strings as a table, and the lessons that have it."""
    voice = Voice(look.words, tuning, look.style, marks=True)
    notes = " ".join(voice.note(pitch.note) for pitch in tuning.pitches)
    title = heading(look.heading, named(_title(tuning, notes, look)), "fp-title")
    links = tag("ul", items(_link(lesson, block, look) for lesson, block in places))
    where = tag("details", tag("summary", escaped(look.words.say("tuner.used"))) + links) if places else ""
    midi = "-".join(str(pitch.midi) for pitch in tuning.pitches)
    return tag("section", title + _strings(tuning, voice) + where, "fp-tuning", id=html_id(f"tuning-{midi}"))


def _title(tuning: Tuning, notes: str, look: Look) -> str:
    """`Standard tuning: E A D G B E`; a tuning without a name of its own is its notes."""
    if look.words.has(f"tuner.name.{tuning.name}"):
        return look.words.say("tuner.named", name=look.words.say(f"tuner.name.{tuning.name}"), notes=notes)
    return notes


def _strings(tuning: Tuning, voice: Voice) -> str:
    say = voice.words.say
    heads = "".join(tag("th", escaped(say(f"tuner.{column}")), scope="col") for column in ("string", "note", "hertz"))
    body = "".join(_rows(tuning, voice))
    caption = tag("caption", escaped(say("tuner.caption")), "fp-hidden")
    return tag("table", caption + tag("thead", tag("tr", heads)) + tag("tbody", body), "fp-tuning-strings")


def _rows(tuning: Tuning, voice: Voice) -> Iterator[str]:
    """A row a string, the highest-numbered first, as one tunes. Notes stand without octaves: `G2` means a fret here."""
    for string in range(tuning.strings, 0, -1):
        pitch = tuning.pitch(string)
        hertz = voice.words.say("tuner.frequency", hertz=f"{pitch.frequency():.2f}")
        cells = tag("th", str(string), scope="row") + tag("td", named(voice.note(pitch.note)), "fp-tuning-note")
        yield tag("tr", cells + tag("td", escaped(hertz)), data_midi=str(pitch.midi), data_string=str(string))


def _link(lesson: Lesson, block: Block, look: Look) -> str:
    text = unmarked(lesson.title or block.title or lesson.file)
    step = html_id(block.steps[0].id) if block.steps else ""
    return tag("a", escaped(text), "fp-link", href=look.links.step(lesson.file, block.id, step))
