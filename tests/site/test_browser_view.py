"""The reader's own view: left hand, the neck as a player sees it, light and dark, larger text; kept in this browser."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager

import pytest
from playwright.sync_api import Page

from .looking import DESK, PHONE, Visit, until

pytestmark = pytest.mark.xdist_group(__name__)
Visiting = Callable[..., AbstractContextManager[Visit]]

MIDDLES = "map((one) => one.getBoundingClientRect()).map((box) => [box.x + box.width / 2, box.y + box.height / 2])"
# Where the strings of the first picture stand, by their thickness: the thickest is the highest-numbered one.
STRINGS = f"""() => {{
  const frame = document.querySelector('.fp-step .fp-frame');
  const strings = [...frame.querySelectorAll('.fp-string')];
  strings.sort((a, b) => b.getAttribute('stroke-width') - a.getAttribute('stroke-width'));
  return strings.{MIDDLES};
}}"""
# The heads of the first table's strings, the highest-numbered first.
HEADS = f"""() => {{
  const heads = [...document.querySelectorAll('.fp-step .fp-strings th[aria-label]')].slice(0, 6);
  heads.sort((a, b) => b.querySelector('small').textContent - a.querySelector('small').textContent);
  return heads.{MIDDLES};
}}"""
UPSIDE_DOWN = """() => [...document.querySelectorAll('.fp-frame text:not(.fp-capo-name)')].filter((text) => {
  const { a, b } = text.getScreenCTM();
  return a <= 0 || Math.abs(b) > 0.01 * a;
}).length"""


# What is not chosen is as the course was built.
CHOSEN = """([name, value]) => {
  const { [name]: chosen, builtHand, builtView } = document.documentElement.dataset;
  return (chosen ?? { hand: builtHand, view: builtView }[name] ?? '') === value;
}"""


def choose(page: Page, name: str, value: str) -> None:
    """Chooses in the panel, shuts it, and waits until the page has followed."""
    page.click("summary:text('View')")
    page.check(f"input[name={name}][value='{value}']")
    page.keyboard.press("Escape")
    until(page, CHOSEN, [name, value])


def under_the_strings(page: Page, axis: int) -> None:
    strings, heads = page.evaluate(STRINGS), page.evaluate(HEADS)
    assert len(strings) == len(heads) == 6
    for string, head in zip(strings, heads, strict=True):
        assert string[axis] == pytest.approx(head[axis], abs=4)


@pytest.mark.parametrize("size", [PHONE, DESK])
def test_the_table_stands_under_the_strings(visit: Visiting, lessons: list[str], size: tuple[int, int]) -> None:
    with visit(size=size) as student:
        page = student.open(lessons[0])
        under_the_strings(page, axis=0)
        assert page.evaluate(STRINGS)[0][0] < page.evaluate(STRINGS)[5][0]


@pytest.mark.parametrize("size", [PHONE, DESK])
def test_left_handed_mirrors_picture_and_table_and_stays(
    visit: Visiting, lessons: list[str], size: tuple[int, int]
) -> None:
    with visit(size=size) as student:
        page = student.open(lessons[0])
        choose(page, "hand", "left")
        page = student.open(lessons[0])
        strings = page.evaluate(STRINGS)
        assert strings[0][0] > strings[5][0]
        under_the_strings(page, axis=0)
        assert page.evaluate(UPSIDE_DOWN) == 0
        assert page.locator("input[name=hand][value=left]").is_checked()
        student.open(lessons[1])
        assert page.evaluate("document.documentElement.dataset.hand") == "left"


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("size", [PHONE, DESK])
def test_the_players_view_lays_the_neck_and_a_row_continues_each_string(
    visit: Visiting, lessons: list[str], size: tuple[int, int], hand: str
) -> None:
    with visit(size=size) as student:
        page = student.open(lessons[0])
        choose(page, "hand", hand)
        choose(page, "view", "player")
        strings = page.evaluate(STRINGS)
        assert strings[0][1] > strings[5][1], "the lowest string is the nearest to who looks down on it"
        under_the_strings(page, axis=1)
        nut, figure = (page.locator(one).first.bounding_box() for one in (".fp-step .fp-nut", ".fp-step .fp-frame"))
        assert nut
        assert figure
        assert (nut["x"] < figure["x"] + figure["width"] / 2) == (hand == "right")
        assert page.evaluate(UPSIDE_DOWN) == 0
        choose(page, "view", "upright")
        under_the_strings(page, axis=0)


def test_the_table_says_the_same_lying_as_standing(visit: Visiting, lessons: list[str]) -> None:
    """Each cell keeps its own two heads, as they are read aloud."""
    read = """() => [...document.querySelectorAll('.fp-step .fp-strings')].map((table) => {
      const lying = table.classList.contains('fp-strings-down');
      const top = [...table.tHead.rows[0].cells];
      return [...table.tBodies[0].rows].flatMap((row) => [...row.cells].slice(1).map((cell, at) => {
        const [one, other] = [top[at + 1].textContent, row.cells[0].textContent];
        return [lying ? other : one, lying ? one : other, cell.textContent].join(' ');
      })).sort();
    })"""
    with visit() as student:
        page = student.open(lessons[0])
        standing = page.evaluate(read)
        choose(page, "view", "player")
        assert page.locator(".fp-strings-down").count() > 0
        assert page.evaluate(read) == standing


def test_light_and_dark_are_a_choice_over_the_device(visit: Visiting) -> None:
    paper = "getComputedStyle(document.body).backgroundColor"
    with visit(light="light") as student:
        page = student.open()
        light = page.evaluate(paper)
        choose(page, "light", "dark")
        dark = page.evaluate(paper)
        assert student.open().evaluate(paper) == dark != light
        page.emulate_media(color_scheme="dark")
        choose(page, "light", "light")
        assert page.evaluate(paper) == light
        choose(page, "light", "")
        assert page.evaluate(paper) == dark


def test_larger_text_is_larger(visit: Visiting) -> None:
    size = "parseFloat(getComputedStyle(document.body).fontSize)"
    with visit() as student:
        page = student.open()
        assert page.evaluate(size) >= 18
        choose(page, "text", "large")
        assert student.open().evaluate(size) >= 22


def test_a_store_that_is_not_ours_is_left_alone(visit: Visiting, lessons: list[str]) -> None:
    with visit() as student:
        student.page.add_init_script('localStorage.setItem(\'fingerpost:view\', \'{"hand": "<b>", "light": 3\')')
        page = student.open(lessons[0])
        assert page.evaluate("Object.keys(document.documentElement.dataset).sort()") == [
            "base",
            "builtHand",
            "builtNames",
            "builtView",
        ]


def test_without_scripts_the_lesson_is_whole_and_no_control_is_dead(visit: Visiting, lessons: list[str]) -> None:
    with visit(java_script_enabled=False) as student:
        page = student.page
        page.goto(student.address + lessons[0])
        assert page.locator(".fp-step").count() > 1
        assert page.locator("button:visible, input[type=radio]:visible").count() == 0
        page.click("summary:text('View')")
        assert page.locator("noscript").first.is_visible()
        assert page.locator(".top a:visible").count() == 4


def test_two_choices_made_before_the_page_has_followed_both_hold(visit: Visiting, lessons: list[str]) -> None:
    with visit() as student:
        page = student.open(lessons[0])
        page.click("summary:text('View')")
        page.evaluate("""() => {
          document.querySelector("input[name=hand][value=left]").click();
          document.querySelector("input[name=view][value=player]").click();
        }""")
        until(page, CHOSEN, ["view", "player"])
        assert page.evaluate(CHOSEN, ["hand", "left"])
        page = student.open(lessons[0])
        assert page.evaluate(CHOSEN, ["hand", "left"])
        assert page.evaluate(CHOSEN, ["view", "player"])


def test_a_choice_does_not_bring_back_an_earlier_one(visit: Visiting, lessons: list[str]) -> None:
    """Another tab of the course may have chosen otherwise meanwhile."""
    with visit() as student:
        page = student.open(lessons[0])
        choose(page, "light", "dark")
        page.evaluate("""() => {
          const kept = JSON.parse(localStorage.getItem("fingerpost:view"));
          localStorage.setItem("fingerpost:view", JSON.stringify({ ...kept, light: "light" }));
        }""")
        choose(page, "hand", "left")
        page = student.open(lessons[0])
        assert page.evaluate(CHOSEN, ["light", "light"])
        assert page.evaluate(CHOSEN, ["hand", "left"])
