"""Whatever is written: no exception, every block shown or told to be broken, every finding at a place of its page."""

from __future__ import annotations

from fingerpost.course.build import build
from fingerpost.course.memory import Memory
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Severity
from fingerpost.source.page import read_page
from hypothesis import given
from hypothesis import strategies as st

from .any_page import PAGES

COURSES = st.lists(PAGES, min_size=1, max_size=3)
OPTIONS = st.sampled_from(
    [
        {},
        {"hand_shifts": True, "fingers_per_step": 3},
        {"ties": ["Am7 not C6"]},
        {"frets": 5},
        {"limits": {"span_mm": 1}},
    ]
)


@given(COURSES, OPTIONS)
def test_any_course_is_built(texts: list[str], options: dict[str, object]) -> None:
    settings, _ = Settings.from_mapping(options)
    pages = [read_page(f"p{number}.md", text) for number, text in enumerate(texts)]
    made, found = build(pages, settings)
    for page, lesson in zip(pages, made.lessons, strict=True):
        shown = sorted([*(block.span for block in lesson.blocks), *(broken.span for broken in lesson.broken)])
        assert shown == sorted(block.span for block in page.syntax.blocks)
        assert len(lesson.mentions) == len(page.syntax.mentions)
        assert all(broken.messages for broken in lesson.broken)
        for block in lesson.blocks:
            assert [step.ordinal for step in block.steps] == list(range(len(block.steps)))
            own = {step.id for step in block.steps if "--" not in step.id}
            assert len({step.id for step in block.steps}) == len(block.steps) or own
            assert all(step.transition is not None for step in block.steps[1:])
    for finding in found:
        lines = texts[int(finding.span.file[1:-3])].split("\n")
        assert 1 <= finding.span.line <= finding.span.end_line <= len(lines) + 1
        assert finding.span.column >= 1
        assert finding.message
    assert len(set(found)) == len(found)


@given(COURSES)
def test_an_error_in_a_block_breaks_it(texts: list[str]) -> None:
    pages = [read_page(f"p{number}.md", text) for number, text in enumerate(texts)]
    made, _ = build(pages, Settings())
    for page, lesson in zip(pages, made.lessons, strict=True):
        sound = [block.span for block in lesson.blocks]
        errors = [finding.span for finding in page.findings if finding.severity is Severity.ERROR]
        assert not [span for span in sound for e in errors if span.line <= e.line <= span.end_line]


@given(PAGES, PAGES)
def test_memory_changes_nothing(first: str, second: str) -> None:
    memory = Memory()
    one, two = read_page("p.md", first), read_page("p.md", second)
    for page in (one, two, one):
        assert build([page], Settings(), memory) == build([page], Settings())


@given(PAGES)
def test_pages_without_their_reading_build_too(text: str) -> None:
    page = read_page("p.md", text).syntax
    made, _ = build([page], Settings())
    assert len(made.lessons[0].blocks) + len(made.lessons[0].broken) == len(page.blocks)
