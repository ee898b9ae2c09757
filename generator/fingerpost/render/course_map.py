"""The map of the whole course: lesson by lesson its shapes and changes, what is one finger away, and the curve."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fingerpost.course.curve import LessonLoad, loads
from fingerpost.course.model import Course, Lesson
from fingerpost.course.next_shapes import MOST_LOOKED_AT, untaught_of
from fingerpost.course.settings import Settings
from fingerpost.course.way_map import LessonWay, ways_of
from fingerpost.render.course_page import CoursePage
from fingerpost.render.curve import Dot, curve
from fingerpost.render.lesson_way import flags, jumps_said, shown
from fingerpost.render.look import Look
from fingerpost.render.named import unmarked
from fingerpost.render.parts import heading, tag
from fingerpost.render.plain import escaped, html_id
from fingerpost.render.way_map import Near, of_many_fingers, way_diagram

COLUMNS = ("lesson", "changes", "mean", "hardest", "jumps_head")


def course_map(course: Course, settings: Settings, look: Look) -> CoursePage:
    """The page."""
    said, ways = look.words, ways_of(course)
    title = said.say("course_map.title")
    if not ways:
        return CoursePage(title, tag("div", tag("p", escaped(said.say("index.none"))), "fp-page fp-course-map"))
    near, left_out = untaught_of(course, settings.hand)
    lead = tag("p", escaped(said.say("course_map.lead")), "fp-lead") + _key(any(near.values()), left_out, look)
    maps = tag("div", "".join(_lesson(number, way, near, look) for number, way in enumerate(ways, 1)), "fp-maps")
    return CoursePage(title, tag("div", lead + maps + _curve(course, settings, look), "fp-page fp-course-map"))


def _key(near: bool, left_out: int, look: Look) -> str:
    said = look.words
    keys = [said.say("course_map.key"), *([said.say("course_map.key_near")] if near else [])]
    if left_out:
        keys.append(said.count("course_map.many", left_out, looked=MOST_LOOKED_AT))
    return "".join(tag("p", escaped(text)) for text in keys)


def _lesson(number: int, one: LessonWay, near: Near, look: Look) -> str:
    title = lesson_title(one.lesson)
    head = heading(look.heading, escaped(title), "fp-title")
    drawn = shown(way_diagram(one.way, look, title, near), f"fp-map-{number}", "fp-map-drawn")
    return tag("section", head + drawn + flags(of_many_fingers(one.way, look), look), "fp-map")


def lesson_title(lesson: Lesson) -> str:
    """What a lesson is called in a list."""
    return unmarked(lesson.title or next((block.title for block in lesson.blocks if block.title), None) or lesson.file)


def _curve(course: Course, settings: Settings, look: Look) -> str:
    said, lessons = look.words, loads(course, settings)
    if not lessons:
        return ""
    dots = [Dot(load.hardest.points, bool(load.jumps), load.mean) for load in lessons]
    jumps = jumps_said(sum(load.jumps for load in lessons), look)
    words = f"{said.count('course_map.curve_words', len(lessons))} {jumps}"
    title = said.say("course_map.curve")
    drawn = curve(dots, said.say("course_map.lesson"), title, words, said.say("curve.points"))
    body = tag("p", escaped(words)) + shown(drawn, "fp-map-curve", "fp-curve-drawn") + _table(course, lessons, look)
    rule = tag("p", escaped(said.say("curve.rule")))
    return tag("section", heading(look.heading, escaped(title), "fp-title") + body + rule, "fp-map")


def _table(course: Course, lessons: Sequence[LessonLoad], look: Look) -> str:
    heads = "".join(tag("th", escaped(look.words.say(f"course_map.{column}")), scope="col") for column in COLUMNS)
    caption = tag("caption", escaped(look.words.say("course_map.curve")), "fp-hidden")
    rows = "".join(_rows(course, lessons, look))
    table = tag("table", caption + tag("thead", tag("tr", heads)) + tag("tbody", rows), "fp-map-figures")
    return tag("div", table, "wide")


def _rows(course: Course, lessons: Sequence[LessonLoad], look: Look) -> Iterator[str]:
    titles = {lesson.file: lesson_title(lesson) for lesson in course.lessons}
    for number, load in enumerate(lessons, 1):
        file, block, step = load.hardest.place
        link = tag("a", escaped(titles[load.file]), href=look.links.step(file, block, html_id(step)))
        figures = (str(len(load.changes)), f"{load.mean:.1f}", f"{load.hardest.points:.1f}", str(load.jumps))
        yield tag("tr", tag("th", f"{number} {link}", scope="row") + "".join(tag("td", cell) for cell in figures))
