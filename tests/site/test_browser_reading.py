"""Reading it: contrast in both lights, spaced text, forced colours, no motion, large type, and the printed sheet."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager

import pytest
from playwright.sync_api import Page

from .looking import DESK, NARROW, PHONE, Visit, until

pytestmark = pytest.mark.xdist_group(__name__)
Visiting = Callable[..., AbstractContextManager[Visit]]

# The roles of a picture's marks, and the property that carries their colour.
MARKS = {
    "fp-nut": "stroke", "fp-fret": "stroke", "fp-string": "stroke", "fp-open": "stroke", "fp-silent": "stroke",
    "fp-stays": "fill", "fp-arrives": "fill", "fp-edge": "stroke", "fp-was": "stroke", "fp-travel": "stroke",
    "fp-tip": "fill", "fp-freed": "stroke", "fp-mark-new": "stroke", "fp-capo-bar": "fill",
}  # fmt: skip
# Text on a mark: what is written, and what it is written on.
NUMERALS = {"fp-num": "fp-stays", "fp-num-new": "fp-arrives", "fp-capo-name": "fp-capo-bar"}
COLOUR = """([name, property]) => {
  const mark = document.querySelector(`.fp-frame .${name}`);
  return mark && getComputedStyle(mark)[property];
}"""
PAPER = "getComputedStyle(document.body).backgroundColor"


def luminance(colour: str) -> float:
    """Relative luminance of `rgb(r, g, b)` (WCAG 2.2, definitions)."""
    channels = [int(part) / 255 for part in colour.removeprefix("rgb(").removesuffix(")").split(",")]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours (WCAG 2.2, definitions)."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_reckoned_as_the_standard_does() -> None:
    """WCAG 2.2: black on white is 21:1; #777 on white is just under 4.5:1 (4.48, from memory)."""
    assert contrast("rgb(0, 0, 0)", "rgb(255, 255, 255)") == pytest.approx(21)
    assert contrast("rgb(119, 119, 119)", "rgb(255, 255, 255)") == pytest.approx(4.48, abs=0.005)


def colours(page: Page, names: dict[str, str]) -> dict[str, str]:
    found = {name: page.evaluate(COLOUR, [name, prop]) for name, prop in names.items()}
    return {name: colour for name, colour in found.items() if colour}


@pytest.mark.parametrize("light", ["light", "dark"])
def test_marks_stand_out_from_the_paper_three_to_one_and_numerals_four_and_a_half(
    visit: Visiting, lessons: list[str], light: str
) -> None:
    """WCAG 2.2, 1.4.11 and 1.4.3, over all the marks that the course uses."""
    marks: dict[str, float] = {}
    numerals: dict[str, float] = {}
    with visit(light=light) as student:
        for lesson in lessons:
            page = student.open(lesson)
            paper = page.evaluate(PAPER)
            marks |= {name: contrast(colour, paper) for name, colour in colours(page, MARKS).items()}
            written = colours(page, dict.fromkeys(NUMERALS, "fill"))
            ground = colours(page, dict.fromkeys(NUMERALS.values(), "fill"))
            numerals |= {name: contrast(colour, ground[NUMERALS[name]]) for name, colour in written.items()}
    assert marks.keys() == MARKS.keys(), "the demo course shows every mark"
    assert {name: ratio for name, ratio in marks.items() if ratio < 3} == {}
    assert numerals.keys() == NUMERALS.keys()
    assert {name: ratio for name, ratio in numerals.items() if ratio < 4.5} == {}


def test_paper_shows_between_what_arrives_and_its_edge(visit: Visiting, lessons: list[str]) -> None:
    with visit() as student:
        page = student.open(lessons[0])
        assert page.evaluate(COLOUR, ["fp-edge", "fill"]) == page.evaluate(PAPER)
        gap = page.evaluate(
            """() => {
              const edge = document.querySelector('.fp-edge'), fill = document.querySelector('.fp-arrives');
              const inner = +edge.getAttribute('x') + parseFloat(getComputedStyle(edge).strokeWidth) / 2;
              return +fill.getAttribute('x') - inner;
            }"""
        )
        assert gap >= 2


def test_the_text_may_be_spaced_out(visit: Visiting, lessons: list[str]) -> None:
    """WCAG 2.2, 1.4.12: line height 1.5, letters 0.12, words 0.16, paragraphs 2 times the size; nothing is cut."""
    spaced = (
        "* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important }"
        "p { margin-bottom: 2em !important }"
    )
    cut = """() => [...document.querySelectorAll('main p, main h1, main h2, main h3, main .arm, .top a, .top button')]
      .filter((element) => element.scrollWidth > element.clientWidth + 2 && element.clientWidth > 0
        && getComputedStyle(element).overflowX !== 'visible')
      .map((element) => element.outerHTML.slice(0, 100))"""
    with visit(size=PHONE, bypass_csp=True) as student:
        page = student.open(lessons[0])
        page.add_style_tag(content=spaced)
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
        assert page.evaluate(cut) == []


def test_forced_colours_keep_every_mark_apart(visit: Visiting, lessons: list[str]) -> None:
    with visit(forced_colors="active") as student:
        page = student.open(lessons[0])
        paper = page.evaluate(PAPER)
        shown = colours(page, MARKS)
        assert {name for name, colour in shown.items() if contrast(colour, paper) < 3} == set()
        assert page.evaluate("getComputedStyle(document.querySelector('.fp-arm')).borderLeftStyle") == "solid"


def test_nothing_moves_unasked(visit: Visiting, lessons: list[str]) -> None:
    with visit() as student:
        page = student.open(lessons[0])
        assert page.evaluate("getComputedStyle(document.documentElement).scrollBehavior") == "auto"
        assert page.evaluate("document.getAnimations().length") == 0


def test_type_is_large_on_the_stand(visit: Visiting, lessons: list[str]) -> None:
    with visit(size=PHONE) as student:
        page = student.open(lessons[0])
        size = """(names) => Math.min(...[...document.querySelectorAll(names)]
          .map((element) => parseFloat(getComputedStyle(element).fontSize)))"""
        assert page.evaluate(size, ".body p") >= 16
        assert page.evaluate(size, ".fp-words .fp-move, .fp-words .fp-stays, .fp-words .fp-say, .body > p") >= 18
        assert page.evaluate(size, ".fp-arm .fp-chord") >= 30
        picture = page.locator(".fp-step .fp-frame").first.bounding_box()
        assert picture
        assert picture["width"] > 0.8 * PHONE[0]


def test_the_first_step_fits_the_phone_without_scrolling_back(visit: Visiting, lessons: list[str]) -> None:
    """From the arm to the words of the move: what a student must see with both hands busy."""
    tall = """() => [...document.querySelectorAll('.fp-step[data-kind=move]')].map((step) => {
      const move = step.querySelector('.fp-move');
      return move ? move.getBoundingClientRect().bottom - step.getBoundingClientRect().top : 0;
    })"""
    with visit(size=PHONE) as student:
        for lesson in lessons:
            heights = student.open(lesson).evaluate(tall)
            assert max(heights) <= PHONE[1], lesson


@pytest.mark.parametrize("size", [PHONE, DESK, NARROW])
def test_the_desk_puts_the_words_beside_the_picture(visit: Visiting, lessons: list[str], size: tuple[int, int]) -> None:
    with visit(size=size) as student:
        page = student.open(lessons[0])
        figure, words = (page.locator(f".fp-step .{name}").first.bounding_box() for name in ("fp-figure", "fp-words"))
        assert figure
        assert words
        beside = words["x"] >= figure["x"] + figure["width"] and words["y"] < figure["y"] + figure["height"]
        assert beside == (size == DESK)


def test_the_printed_sheet_is_black_ink_and_splits_no_step(visit: Visiting, lessons: list[str]) -> None:
    """A4 within the margins is 182 by 265 mm: a step that may not break and is lower than that is never split."""
    page_width, page_height = round(182 / 25.4 * 96), 265 / 25.4 * 96
    with visit(size=(page_width, 1000), light="dark") as student:
        for lesson in lessons[::2]:
            page = student.open(lesson)
            page.emulate_media(media="print", color_scheme="dark")
            steps = page.evaluate(
                "() => [...document.querySelectorAll('.fp-step')].map((step) =>"
                " [getComputedStyle(step).breakInside, step.getBoundingClientRect().height])"
            )
            assert {inside for inside, _ in steps} == {"avoid"}
            assert page.evaluate(
                "[...document.querySelectorAll('.fp-back-title, .fp-back-lead')]"
                ".every((before) => getComputedStyle(before).breakAfter === 'avoid')"
            )
            # A list of ways back may go on overleaf; else it would leave the rest of a page empty.
            assert page.evaluate(
                "[...document.querySelectorAll('.fp-ways')]"
                ".every((list) => getComputedStyle(list).breakInside === 'auto')"
            )
            assert max(height for _, height in steps) < page_height
            ink = page.evaluate(
                """() => [...document.querySelectorAll('main *')].flatMap((element) => {
                  const { color, backgroundColor, fill, stroke } = getComputedStyle(element);
                  return element.closest('svg') ? [fill, stroke] : [color, backgroundColor];
                }).filter((colour, at, all) => all.indexOf(colour) === at)"""
            )
            grey = {"none", "rgba(0, 0, 0, 0)", "rgb(0, 0, 0)", "rgb(255, 255, 255)"}
            assert set(ink) <= grey, lesson
            gone = page.locator(
                ".top:visible, .foot:visible, .contents:visible, .ends:visible, .carry-on:visible,"
                " button:not(.fp-strings button):visible"
            )
            assert gone.count() == 0
            assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_a_ticked_box_prints_empty(visit: Visiting, lessons: list[str]) -> None:
    with visit() as student:
        page = student.open(lessons[0])
        page.locator(".fp-practice input").first.check()
        page.emulate_media(media="print")
        drawn = page.evaluate("getComputedStyle(document.querySelector('.fp-practice input'), '::before').content")
        box = page.evaluate("getComputedStyle(document.querySelector('.fp-practice input')).borderTopStyle")
        assert (drawn, box) == ("none", "solid")


FOLDED = "[...document.querySelectorAll('.fp-ways-folded .fp-way')]"
SEEN = f"{FOLDED}.map((way) => way.checkVisibility({{ contentVisibilityAuto: true }}) && way.offsetHeight > 0)"
HEAVIEST = "the-gate/"


def test_easy_ways_back_are_folded_and_open_by_key_and_tap(visit: Visiting) -> None:
    with visit(size=PHONE) as student:
        page = student.open(HEAVIEST)
        seen = page.evaluate(SEEN)
        assert len(seen) > 8
        assert not any(seen)
        assert page.locator(".fp-way:has(.fp-flag):visible").count() == 2
        lines = page.locator(".fp-ways-folded > summary")
        sizes = [line.bounding_box() or {} for line in lines.all()]
        assert min(size["height"] for size in sizes) >= 24, "WCAG 2.2, 2.5.8"
        lines.first.press("Enter")
        lines.last.click()
        until(page, f"{SEEN}.every(Boolean)")


def test_a_link_into_the_fold_opens_it(visit: Visiting) -> None:
    with visit(size=PHONE) as student:
        page = student.open(HEAVIEST)
        inside = page.evaluate(f"{FOLDED}[2].querySelector('title').id")
        page.evaluate("(id) => { location.hash = id; }", inside)
        assert page.evaluate(f"{FOLDED}[2].closest('details').open")


def test_nothing_is_folded_on_paper(visit: Visiting) -> None:
    """By the style sheet; and by a script, since a browser may not know the part of `<details>` that it styles."""
    with visit() as student:
        page = student.open(HEAVIEST)
        # What is seen is known a frame after the paper is chosen.
        page.emulate_media(media="print")
        until(page, f"{SEEN}.every(Boolean)")
        page.emulate_media(media="screen")
        until(page, f"!{SEEN}.some(Boolean)")
        page.locator(".fp-ways-folded > summary").first.click()
        opened = "[...document.querySelectorAll('.fp-ways-folded')].map((fold) => fold.open)"
        page.evaluate("dispatchEvent(new Event('beforeprint'))")
        assert page.evaluate(opened) == [True, True]
        page.evaluate("dispatchEvent(new Event('afterprint'))")
        assert page.evaluate(opened) == [True, False], "only what was opened for the printer is folded again"


def test_what_is_wider_than_its_frame_is_in_reach_of_the_keyboard(visit: Visiting) -> None:
    """Where a fold opens too, and no longer where the window has grown."""
    reached = """() => [...document.querySelectorAll('.wide, main pre')]
      .filter((frame) => frame.checkVisibility({ contentVisibilityAuto: true }))
      .map((frame) => [frame.tabIndex === 0, frame.scrollWidth > frame.clientWidth + 1])"""
    agreed = f"({reached})().every(([reached, wider]) => reached === wider)"
    with visit(size=(240, 700)) as student:
        page = student.open(HEAVIEST)
        until(page, agreed)
        page.locator(".fp-map-load > summary").click()
        until(page, agreed)
        assert page.evaluate(reached) == [[False, False], [True, True], [True, True]], "the map, the curve, its table"
        page.set_viewport_size({"width": 1280, "height": 900})
        until(page, agreed)
        assert page.evaluate(reached) == [[False, False]] * 3
