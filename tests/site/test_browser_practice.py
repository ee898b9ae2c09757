"""The practice view: one step fills the screen; opened from a lesson, gone through by touch and by keys, left again."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from .building import INDEX, Course
from .looking import DESK, Visit, served, until, visiting
from .practising import VIEW, followed, gone, name, practise, press, short, shown, text

pytestmark = pytest.mark.xdist_group("practice")
Visiting = Callable[..., AbstractContextManager[Visit]]
LESSON = "the-long-dark/"
SMALL = [(390, 664), (844, 390), (320, 256)]
# WCAG 2.2, 1.4.12: what a reader's own style sheet may ask for without loss.
SPACED = """() => { const sheet = new CSSStyleSheet(); sheet.replaceSync(
  '* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important }' +
  'p { margin-bottom: 2em !important }');
  document.adoptedStyleSheets = [sheet]; }"""
TARGETS = f"""() => [...document.querySelectorAll('{VIEW} :is(button, a, summary, select, input[type=range], label)')]
  .filter((one) => one.checkVisibility()).map((one) => [one.textContent.trim(), one.getBoundingClientRect()])
  .filter(([, box]) => box.width < 63.9 || box.height < 63.9)
  .map(([text, box]) => `${{text}} ${{box.width}} ${{box.height}}`)"""
# How tall the ink of a text is on the screen: its numeral 3, or its capital letters.
INK = """(selector) => [...document.querySelectorAll(selector)].map((one) => {
  const pen = document.createElement('canvas').getContext('2d');
  const style = getComputedStyle(one);
  pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  const ink = pen.measureText(one instanceof SVGElement ? '3' : 'C');
  const scale = one instanceof SVGElement ? Math.hypot(one.getScreenCTM().a, one.getScreenCTM().b) : 1;
  return (ink.actualBoundingBoxAscent + ink.actualBoundingBoxDescent) * scale;
})"""


# The diagonal of the tallest numeral's ink, and how far it is across its disc, in units of the picture.
WIDEST = """(where) => {
  const picture = document.querySelector(where);
  const pen = document.createElement('canvas').getContext('2d');
  const diagonals = [...picture.querySelectorAll('[data-picture] .fp-num')].map((text) => {
    const { fontWeight, fontFamily } = getComputedStyle(text);
    pen.font = `${fontWeight} ${text.getAttribute('font-size')}px ${fontFamily}`;
    const ink = pen.measureText(text.textContent);
    return Math.hypot(ink.actualBoundingBoxRight + ink.actualBoundingBoxLeft, ink.actualBoundingBoxAscent);
  });
  return { numeral: Math.max(...diagonals), mark: 2 * picture.querySelector('circle.fp-stays').getAttribute('r') + 2 };
}"""


def test_a_block_opens_at_its_own_first_step_and_leaving_returns_to_the_step(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON, block=1)
        assert "One finger, two strings" in text(page, "where")
        assert (name(page), text(page, "where")[:11]) == ("Am", "Step 1 of 8")
        page.click(f"{VIEW} [data-next]")
        assert (name(page), short(page)) == ("C", "3 → A3")
        assert text(page, "stays") == "Fingers 1 and 2 stay."
        assert "Finger 3 crosses from the G string" in text(page, "move")
        page.click(f"{VIEW} [data-leave]")
        gone(page)
        until(page, "document.activeElement?.matches('.fp-arm')")
        step = page.locator(".fp-step:focus-within")
        assert "3 → A3" in (step.locator(".fp-short").text_content() or "")
        assert -2 < (step.bounding_box() or {"y": 999})["y"] < 200
        assert "practise" not in page.url


def settled(page: Page, step: int) -> None:
    """Waits until the address says which step of the lesson is shown."""
    holds = (
        "(at) => location.hash === '#practise=' + encodeURIComponent([...document.querySelectorAll('.fp-step')][at].id)"
    )
    until(page, holds, step)


def test_the_address_holds_so_that_reload_and_back_work(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON)
        press(page, "ArrowRight", "ArrowRight", "ArrowRight")
        settled(page, 3)
        kept = page.url
        page.reload()
        shown(page)
        assert (name(page), page.url) == ("Asus2", kept)
        page.go_back()
        gone(page)
        page.go_forward()
        assert name(shown(page)) == "Asus2"
    with visit() as student:
        page = student.open(kept.removeprefix(student.address))
        assert name(shown(page)) == "Asus2"
        press(page, "Escape")
        gone(page)
        assert page.url == student.address + LESSON


def test_an_address_of_a_step_that_has_changed_opens_its_block(visit: Visiting) -> None:
    with visit() as student:
        page = student.open(f"{LESSON}#practise=dark-lamp--x32010-gone")
        assert "One finger, two strings" in text(shown(page), "where")


def test_keys_of_page_turners_go_on_and_back(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON)
        seen = [name(page)]
        for key in ("ArrowRight", "PageDown", "ArrowDown", " ", "ArrowLeft", "PageUp", "ArrowUp", "Shift+ ", "Enter"):
            press(page, key)
            seen.append(name(page))
        assert seen == ["Am", "Am7", "Am", "Asus2", "Am", "Asus2", "Am", "Am7", "Am", "Am7"]


def test_a_control_with_the_focus_keeps_space_and_enter_and_words_keep_their_scrolling(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON, block=1)
        page.focus(f"{VIEW} [data-back]")
        press(page, "ArrowRight", "Enter")
        assert name(page) == "Am"
        page.focus(f"{VIEW} [data-words-of-step]")
        press(page, "ArrowDown", "PageDown", " ")
        assert name(page) == "Am"
        until(page, f"document.querySelector('{VIEW} .practice-body').scrollTop > 0")
        press(page, "ArrowRight")
        assert name(page) == "C"


@pytest.mark.parametrize("touch", [True, False])
def test_a_page_turner_turns_after_whatever_a_finger_or_a_mouse_was_on(visit: Visiting, touch: bool) -> None:
    with visit(has_touch=touch) as student:
        page = practise(student, LESSON)
        point = page.tap if touch else page.click
        page.click(f"{VIEW} summary")
        for used in ("[data-words-of-step]", "[name=sound]", "[name=tempo]", "[data-volume]"):
            for key in ("PageDown", "ArrowDown", " "):
                point(f"{VIEW} {used}")
                before = text(page, "where")
                press(page, key)
                assert text(page, "where") != before, (used, key)
                press(page, "ArrowLeft")
        # Where the keyboard itself has brought the focus, the keys are the field's; a box takes its own alone.
        page.focus(f"{VIEW} [name=tempo]")
        before = text(page, "where")
        press(page, "ArrowRight")
        assert text(page, "where") == before
        page.focus(f"{VIEW} [name=arrows]")
        press(page, "ArrowRight", " ")
        assert text(page, "where") != before
        assert not page.is_checked(f"{VIEW} [name=arrows]")


def test_each_group_of_keys_can_be_turned_off_and_stays_off(visit: Visiting) -> None:
    groups = {"arrows": "ArrowRight", "pages": "PageDown", "space": "Enter", "letters": "p"}
    with visit() as student:
        page = practise(student, LESSON)
        page.click(f"{VIEW} summary")
        for group in groups:
            page.uncheck(f"{VIEW} [name={group}]")
        page.reload()
        shown(page)
        for key in groups.values():
            press(page, key)
            assert text(page, "where").startswith("Step 1 "), key
            assert page.get_attribute(VIEW, "data-running") is None
        page.click(f"{VIEW} summary")
        page.check(f"{VIEW} [name=pages]")
        page.focus(f"{VIEW} h2")
        press(page, "ArrowRight", "PageDown")
        assert name(page) == "Am7"


PARTS = ", ".join(f"{VIEW} [data-{part}]" for part in "chord short stays move sound more table where live".split())
SHOWN = f"""[...document.querySelectorAll('{PARTS}')].map((one) => one.textContent)
  .concat(document.querySelectorAll('{VIEW} [data-picture] svg, {VIEW} [data-table] table').length)"""
QUICK = """async (keys) => {
  for (const key of keys) {
    if (key === 'frame') await new Promise(requestAnimationFrame);
    else document.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true }));
  }
}"""


@pytest.mark.parametrize("between", [[], ["frame"], ["frame", "frame"]])
def test_steps_gone_through_quickly_leave_nothing_of_those_passed(visit: Visiting, between: list[str]) -> None:
    """Words and table follow a frame after name and picture: never those of a step that one has already left."""
    with visit() as student:
        page = practise(student, LESSON, block=1)
        press(page, "ArrowRight")
        press(page, "ArrowRight")
        slowly = page.evaluate(SHOWN)
        press(page, "ArrowLeft", "ArrowLeft")
        assert page.evaluate(SHOWN) != slowly
        page.evaluate(QUICK, ["ArrowRight", *between, "ArrowRight"])
        assert followed(page).evaluate(SHOWN) == slowly


def test_touch_goes_through_the_steps(visit: Visiting) -> None:
    with visit(has_touch=True) as student:
        page = student.open(LESSON)
        page.locator("button[data-practise]").first.tap()
        shown(page).tap(f"{VIEW} [data-next]")
        assert name(page) == "Am7"
        page.tap(f"{VIEW} [data-back]")
        assert name(page) == "Am"
        assert page.get_attribute(f"{VIEW} [data-back]", "aria-disabled") == "true"


# Whether the middle of each part is in sight, nothing lying over it; and whether all of it is.
IN_SIGHT = f"""(parts) => parts.map((part) => {{
  const one = document.querySelector(`{VIEW} ${{part}}`);
  const {{ left, right, top, bottom, width }} = one.getBoundingClientRect();
  const seen = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
  return width > 0 && left >= 0 && right <= innerWidth && top >= 0 && bottom <= innerHeight && one.contains(seen);
}})"""


def test_on_a_phone_on_its_side_the_large_areas_stay_where_they_are_and_the_picture_whole(visit: Visiting) -> None:
    ways = [f"{VIEW} [data-{way}]" for way in ("back", "run", "next")]
    with visit(size=(844, 390)) as student:
        page = practise(student, "the-gate/")
        boxes = [page.locator(way).bounding_box() for way in ways]
        for key in ("ArrowRight", "p", "x", "ArrowRight"):
            picture, foot = (
                page.locator(f"{VIEW} {one}").bounding_box() for one in ("[data-picture] svg", ".practice-foot")
            )
            assert picture
            assert foot
            assert picture["y"] + picture["height"] <= foot["y"], "the lowest fret is not cut"
            press(page, key)
            assert [page.locator(way).bounding_box() for way in ways] == boxes, key
            if key == "p":
                assert page.evaluate(IN_SIGHT, ["[data-beat]", "[data-run]"]) == [True, True]


def test_in_a_very_low_window_the_new_name_the_beat_and_it_hurts_are_in_sight(visit: Visiting) -> None:
    with visit(size=(320, 256)) as student:
        page = practise(student, "the-gate/")
        to_end = f"() => {{ document.querySelector('{VIEW}').scrollTop = 1e6; }}"
        for key, seen in (("ArrowRight", "[data-chord]"), ("p", "[data-beat]"), ("x", "[data-run]")):
            page.evaluate(to_end)
            press(page, key)
            assert page.evaluate(IN_SIGHT, [seen, "[data-hurts]", "[data-run]", "[data-next]"]) == [True] * 4, key
        page.evaluate(to_end)
        page.click(f"{VIEW} [data-next]")
        followed(page)
        assert page.evaluate(IN_SIGHT, ["[data-chord]", "[data-hurts]"]) == [True, True]


CONTROLS = ["next", "back", "run", "clean", "unclean", "pair", "strum", "volume", "leave", "hurts"]
OUT_OF_REACH = f"""(names) => names.filter((name) => {{
  const control = document.querySelector(`{VIEW} [data-${{name}}]`);
  control.scrollIntoView({{ block: 'nearest', behavior: 'instant' }});
  const {{ left, right, top, bottom, width }} = control.getBoundingClientRect();
  const seen = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
  return !(width && left >= -0.5 && right <= innerWidth + 0.5 && top >= -0.5 && bottom <= innerHeight + 0.5)
    || !control.contains(seen);
}})"""


def test_next_back_and_pause_are_within_reach_at_every_size_and_with_spaced_text(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON, block=1)
        press(page, "ArrowRight")
        for spaced in (False, True):
            if spaced:
                page.evaluate(SPACED)
            for width, height in SMALL:
                page.set_viewport_size({"width": width, "height": height})
                assert page.evaluate(OUT_OF_REACH, CONTROLS) == [], (width, height, spaced)
                assert page.evaluate(f"document.querySelector('{VIEW}').scrollWidth") <= width


# Where the name, the picture and the large areas are, from the top of the words on.
PLACES = f"""() => ['.practice-name > *', '[data-picture] svg', '[data-back]', '[data-run]', '[data-next]']
  .flatMap((one) => [...document.querySelectorAll(`{VIEW} ${{one}}`)])
  .map((part) => Object.values(part.getBoundingClientRect().toJSON()))"""


def test_the_volume_pushes_neither_name_nor_picture_nor_the_ways_on(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON, block=1)
        press(page, "ArrowRight")
        for width, height in (*SMALL, DESK):
            page.set_viewport_size({"width": width, "height": height})
            places = page.evaluate(PLACES)
            assert len(places) == 6
            page.evaluate(f"document.querySelector('{VIEW} .volume').hidden = true")
            assert page.evaluate(PLACES) == places, (width, height)
            page.evaluate(f"document.querySelector('{VIEW} .volume').hidden = false")


def test_the_volume_is_the_lessons_own_and_each_follows_the_other(visit: Visiting) -> None:
    with visit(has_touch=True) as student:
        page = student.open(LESSON)
        page.click("[data-sound-panel] summary")
        lesson, own = page.locator(".opening [data-volume]"), page.locator(f"{VIEW} [data-volume]")
        words = page.locator(".opening .volume").inner_text()
        lesson.fill("0.2")
        page.locator("button[data-practise]").first.tap()
        shown(page)
        assert own.input_value() == "0.2"
        assert page.locator(f"{VIEW} .volume").inner_text() == words == "Volume"
        box = own.bounding_box()
        assert box
        own.tap(position={"x": box["width"] - 3, "y": box["height"] / 2})
        assert own.input_value() == lesson.input_value() == "1"
        first = name(page)
        own.focus()
        press(page, "ArrowLeft", "ArrowLeft")
        assert own.input_value() == lesson.input_value() == "0.9"
        assert name(page) == first, "the arrows are the control's, not the steps'"
        press(page, "Escape")
        gone(page)
        lesson.fill("0.4")
        page.reload()
        page.locator("button[data-practise]").first.tap()
        assert shown(page).locator(f"{VIEW} [data-volume]").input_value() == "0.4"


def test_the_volume_that_is_set_in_practice_is_heard_in_practice(visit: Visiting) -> None:
    with visit() as student:
        student.page.add_init_script(
            "window.gains = []; const make = AudioContext.prototype.createGain;"
            "AudioContext.prototype.createGain = function () {"
            " const made = make.call(this); gains.push(made); return made; }"
        )
        page = practise(student, LESSON)
        page.locator(f"{VIEW} [data-volume]").fill("0.5")
        page.click(f"{VIEW} [data-strum]")
        # The first gain is that of everything: the square of what the control says.
        until(page, "gains.length > 1 && gains[0].gain.value === 0.25")
        page.locator(f"{VIEW} [data-volume]").fill("0")
        until(page, "gains[0].gain.value === 0")


def test_every_target_is_64_pixels_each_way(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON, block=1)
        press(page, "ArrowRight")
        page.click(f"{VIEW} summary")
        for width, height in (*SMALL, DESK):
            page.set_viewport_size({"width": width, "height": height})
            assert page.evaluate(TARGETS) == []
            assert page.evaluate(f"document.querySelector('{VIEW}').scrollWidth") <= width


@pytest.mark.parametrize("view", ["upright", "player"])
def test_name_short_move_and_numerals_are_35_pixels_tall_on_a_phone(visit: Visiting, view: str) -> None:
    with visit(size=(390, 664)) as student:
        student.page.add_init_script(f"localStorage.setItem('fingerpost:view', '{{\"view\": \"{view}\"}}')")
        page = practise(student, LESSON, block=1)
        press(page, "ArrowRight")
        for part in ("[data-chord] > .fp-chord", "[data-short]", "[data-picture] :is(.fp-num, .fp-num-new)"):
            heights = page.evaluate(INK, f"{VIEW} {part}")
            assert heights
            assert min(heights) >= 35, (part, heights)
        picture, foot = (
            page.locator(f"{VIEW} {one}").bounding_box() for one in ("[data-picture] svg", ".practice-foot")
        )
        assert picture
        assert foot
        assert picture["y"] + picture["height"] <= foot["y"] + 1, "the picture is seen whole"


SEVEN = """\
# Seven strings

```moves
id: seven
title: Seven strings
tuning: B1 E2 A2 D3 G3 B3 E4
start: 2 6:3, 1 5:2, 3 1:3
steps:
- 1 off
- 1 to 5:2
```
"""


@pytest.fixture(scope="module")
def seven(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Where a course for seven strings is served, whose second chord has two names."""
    folder = tmp_path_factory.mktemp("seven")
    Course(folder).write({"index.md": INDEX, "first.md": SEVEN}).build()
    with served(folder / "site") as where:
        yield where


@pytest.mark.parametrize("size", [(390, 844), (390, 664)])
def test_numerals_are_as_tall_on_seven_strings_and_within_their_marks(
    browser: Browser, seven: str, size: tuple[int, int]
) -> None:
    with visiting(browser, seven, size=size) as student:
        page = practise(student, "first/")
        heights = page.evaluate(INK, f"{VIEW} [data-picture] :is(.fp-num, .fp-num-new)")
        assert len(heights) == 3
        assert min(heights) >= 35
        assert page.evaluate(f"document.querySelector('{VIEW}').scrollWidth") <= size[0]
        wide = page.evaluate(WIDEST, f"{VIEW} [data-picture]")
        assert wide["numeral"] < wide["mark"]


@pytest.mark.parametrize("size", [*SMALL, DESK])
def test_a_name_of_two_lines_has_its_room(browser: Browser, seven: str, size: tuple[int, int]) -> None:
    with visiting(browser, seven, size=size) as student:
        page = practise(student, "first/")
        press(page, "ArrowRight")
        assert name(page) == "Gadd9"
        short_form, words = (
            page.locator(f"{VIEW} {one}").bounding_box() for one in (".practice-short", "[data-words-of-step]")
        )
        assert short_form
        assert words
        beside = words["x"] >= short_form["x"] + short_form["width"]
        assert beside or words["y"] >= short_form["y"] + short_form["height"]


def test_words_and_table_are_half_as_tall_at_least(visit: Visiting) -> None:
    with visit(size=(390, 664)) as student:
        page = practise(student, LESSON, block=1)
        press(page, "ArrowRight")
        for part in ("[data-move]", "[data-stays]", "[data-sound]", ".practice-table td"):
            assert min(page.evaluate(INK, f"{VIEW} {part}")) >= 17.5, part


def test_a_screen_reader_hears_finger_string_fret_and_then_what_rings(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON, block=1)
        assert page.evaluate("document.activeElement.tagName") == "H2"
        press(page, "ArrowRight")
        until(page, f"document.querySelector('{VIEW} [data-live]').textContent.includes('C major')")
        said = text(page, "live")
        order = ["C major.", "Finger 3 crosses from", "Finger 3 on string 5, fret 3.", "Strings 3 and 1 ring open."]
        assert [said.index(one) for one in order] == sorted(said.index(one) for one in order)
        assert page.locator(f"{VIEW} [data-live]").get_attribute("aria-live") == "polite"
        shape = page.locator(f"{VIEW} [data-picture] svg")
        assert shape.get_attribute("role") == "img"
        ids = (shape.get_attribute("aria-labelledby") or "").split()
        assert [page.locator(f"[id='{one}']").count() for one in ids] == [1, 1]


def test_rest_back_hold_and_passing_steps_are_shown_as_such(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, "the-gate/")
        seen: dict[str, str] = {}
        for kind in page.evaluate("[...document.querySelectorAll('.fp-step')].map((step) => step.dataset.kind)"):
            seen.setdefault(kind, f"{name(page)} | {text(page, 'move')} | {text(page, 'more')}")
            press(page, "ArrowRight")
        assert seen["rest"].startswith("Rest | Take the whole hand off the neck")
        assert "It is not struck" in seen["passing"].replace("it is", "It is")
        assert {"start", "move", "rest", "passing"} <= seen.keys()


@pytest.mark.parametrize(
    ("lesson", "said"),
    [("the-mast-hums-e/", "Capo on fret 2."), ("storm-from-the-south/", "String 6: from E down to D.")],
)
def test_what_to_tune_and_the_capo_are_said_first(visit: Visiting, lesson: str, said: str) -> None:
    with visit() as student:
        page = practise(student, lesson)
        assert said in text(page, "setup")
        top, below = (page.locator(f"{VIEW} {one}").bounding_box() for one in ("[data-setup]", "[data-chord]"))
        assert (top or {"y": 999})["y"] < (below or {"y": 0})["y"]
        assert text(page, "live").startswith(said), "it is heard first too"
        press(page, "ArrowRight")
        assert text(page, "setup") == ""


def test_back_and_forth_with_a_first_step_nothing_is_tuned_twice_and_the_picture_keeps_its_place(
    visit: Visiting,
) -> None:
    with visit() as student:
        page = practise(student, "the-gate/")
        assert text(page, "setup") == "Take the capo off."
        press(page, "ArrowRight")
        page.click(f"{VIEW} [data-pair]")
        assert text(page, "setup") == "Take the capo off.", "as practice of the two begins"
        places = set()
        for _ in range(4):
            press(page, "ArrowRight")
            assert text(page, "setup") == ""
            places.add((page.locator(f"{VIEW} [data-picture]").bounding_box() or {"y": 0})["y"])
        assert len(places) == 1
        press(page, "p", "x")
        assert text(page, "setup") == ""


def test_left_hand_and_players_view_hold_in_practice(visit: Visiting) -> None:
    strings = f"""([hand, view]) => {{
      Object.assign(document.documentElement.dataset, {{ hand, view }});
      document.documentElement.dispatchEvent(new CustomEvent('viewchange'));
      return [...document.querySelectorAll('{VIEW} [data-picture] .fp-string')]
        .sort((a, b) => b.getAttribute('stroke-width') - a.getAttribute('stroke-width'))
        .map((one) => one.getBoundingClientRect()).map((box) => [box.x, box.y]);
    }}"""
    with visit() as student:
        page = practise(student, LESSON)
        for hand, view, axis, grows in (
            ("left", "upright", 0, False),
            ("right", "player", 1, False),
            ("left", "player", 1, False),
            ("right", "upright", 0, True),
        ):
            places = [place[axis] for place in page.evaluate(strings, [hand, view])]
            assert places == sorted(places, reverse=not grows), (hand, view)
            assert followed(page).locator(f"{VIEW} .practice-table-down").count() == (view == "player")


def test_the_readers_names_for_notes_hold_in_practice(visit: Visiting) -> None:
    """German: B is H (standards.md)."""
    with visit() as student:
        student.page.add_init_script("localStorage.setItem('fingerpost:view', '{\"notes\": \"german\"}')")
        page = practise(student, LESSON)
        press(page, "ArrowRight", "ArrowRight", "ArrowRight", "ArrowRight")
        until(page, f"document.querySelector('{VIEW} [data-short]').textContent === '1 → H1'")
        assert "the H string (2), first fret" in text(page, "move")
        assert page.locator(f"{VIEW} .practice-table th").all_inner_texts()[5] == "H 2"
        assert page.locator(f"{VIEW} .practice-table button").count() == 0


def test_it_hurts_stops_everything_and_leads_to_the_page_on_staying_unhurt(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON)
        page.click(f"{VIEW} [data-run]")
        assert page.locator(f"{VIEW} [data-hurts]").is_visible()
        page.click(f"{VIEW} [data-hurts]")
        page.wait_for_url("**/staying-unhurt/")
        assert "health professional" in page.inner_text("main")


def violations(page: Page, **options: object) -> list[str]:
    found = Axe().run(page, context=VIEW, options=options).response["violations"]
    return [f"{one['id']}: {node['target']}" for one in found for node in one["nodes"]]


def test_what_is_set_stands_apart(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON)
        page.click(f"{VIEW} summary")
        boxes = [
            page.locator(f"{VIEW} {one}").bounding_box() or {}
            for one in ("[name=one]", "[name=other]", "[data-set-pair]")
        ]
        assert all(below["y"] - above["y"] - above["height"] >= 8 for above, below in itertools.pairwise(boxes))


def test_in_forced_colours_no_line_of_a_large_area_lies_over_another(visit: Visiting) -> None:
    """There the browser draws a ground behind each line, as tall as its letters can be."""
    lines = """(part) => [...document.querySelectorAll(`${part} :is([data-label], [data-to])`)].flatMap((one) => {
      const range = document.createRange();
      range.selectNodeContents(one);
      return [...range.getClientRects()].map(({ top, bottom }) => [top, bottom]);
    })"""
    with visit(forced_colors="active") as student:
        page = practise(student, "the-gate/")
        press(page, "ArrowRight")
        for way in ("run", "next", "back"):
            places = page.evaluate(lines, f"{VIEW} [data-{way}]")
            assert len(places) >= 2
            assert all(above[1] <= below[0] + 0.5 for above, below in itertools.pairwise(places)), way


def test_the_axe_rules_find_nothing_in_the_view(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON, block=1)
        press(page, "ArrowRight")
        page.click(f"{VIEW} summary")
        assert violations(page) == []
        page.emulate_media(color_scheme="dark")
        assert violations(page, runOnly=["color-contrast"]) == []


def test_escape_pauses_first_and_leaves_then(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON)
        press(page, "p")
        until(page, f"document.querySelector('{VIEW}').hasAttribute('data-running')")
        press(page, "Escape")
        assert page.get_attribute(VIEW, "data-running") is None
        press(page, "Escape")
        gone(page)


def test_without_scripts_no_control_of_practice_is_shown(visit: Visiting) -> None:
    with visit(java_script_enabled=False) as student:
        student.page.goto(student.address + LESSON)
        assert student.page.locator("[data-practise]:visible, .practice:visible").count() == 0


def sheets(page: Page) -> int:
    """How many pages of A4 are printed."""
    page.emulate_media(media="print")
    return page.pdf(format="A4", prefer_css_page_size=True).count(b"/Type /Page\n")


@pytest.mark.parametrize(("control", "view"), [("[data-practise]", "practice"), ("[data-ring]", "ring")])
def test_a_lesson_is_printed_whole_and_nothing_else_while_a_view_lies_over_it(
    visit: Visiting, control: str, view: str
) -> None:
    with visit() as student:
        page = student.open(LESSON)
        alone = sheets(page)
        assert alone > 2
        page.emulate_media(media="screen")
        page.locator(f"button{control}:visible").first.click()
        until(page, f"document.querySelector('dialog.{view}[open]') !== null")
        assert sheets(student.settled()) == alone
        assert page.locator("dialog:visible").count() == 0
        assert page.locator("main .fp-step:visible").count() == page.locator("main .fp-step").count()


def test_nothing_of_the_view_is_fetched_before_it_is_asked_for_and_nothing_jumps(visit: Visiting) -> None:
    with visit() as student:
        student.page.add_init_script(
            "window.jumps = 0; new PerformanceObserver((list) => list.getEntries().forEach((one) => {"
            " window.jumps += one.value; })).observe({type: 'layout-shift', buffered: true})"
        )
        page = student.open(LESSON)
        page.wait_for_timeout(200)
        fetched = {url.rsplit("/", 1)[1] for url in student.asked}
        assert "opening.js" in fetched
        assert not fetched & {"practice.css", "session.js", "stage.js", "movement.js", "player.js"}
        assert page.evaluate("window.jumps") < 0.01
        page.locator("button[data-practise]").first.click()
        shown(page)
        assert any(url.endswith("practice/view.js") for url in student.asked)


# The picture on top, but for the ids of its words.
PICTURE = (
    f"""() => document.querySelector('{VIEW} [data-picture]').innerHTML.replaceAll(/practice-picture-\\d+/g, '')"""
)
READY = f"""() => [...document.querySelectorAll('{VIEW} .practice-sheet')].map((sheet) => [
  sheet.hasAttribute('data-picture'), sheet.getAttribute('aria-hidden'), getComputedStyle(sheet).opacity,
  sheet.querySelector('svg').getBoundingClientRect().height > 0])"""


def test_the_pictures_beside_lie_ready_unseen_and_a_step_turns_to_its_own(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON, block=1)
        for key in ("ArrowRight", "ArrowRight", "ArrowLeft"):
            press(page, key)
            until(page, f"document.querySelectorAll('{VIEW} .practice-sheet').length === 3")
            sheets = page.evaluate(READY)
            assert sorted(sheets) == [[False, "true", "0", True], [False, "true", "0", True], [True, None, "1", True]]
            # What is on top is what would be drawn now: turned to, it is not made anew; drawn anew, it is the same.
            seen = page.evaluate(PICTURE)
            page.evaluate("document.documentElement.dispatchEvent(new CustomEvent('viewchange'))")
            assert page.evaluate(PICTURE) == seen
            until(page, f"document.querySelectorAll('{VIEW} .practice-sheet').length === 3")
        waiting = page.locator(f"{VIEW} .practice-sheet[aria-hidden]").first.element_handle()
        assert waiting
        press(page, "ArrowRight")
        tops = [waiting.evaluate("(sheet) => sheet.hasAttribute('data-picture')")]
        press(page, "ArrowLeft", "ArrowLeft")
        tops.append(waiting.evaluate("(sheet) => sheet.hasAttribute('data-picture')"))
        assert any(tops), "a sheet that lay ready is the one that is turned to"
        ids = page.evaluate(f"[...document.querySelectorAll('{VIEW} [id]')].map((one) => one.id)")
        assert len(ids) == len(set(ids))
