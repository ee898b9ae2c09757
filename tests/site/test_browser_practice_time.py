"""Practice in time: movement, beats and count-in, back and forth, clean or not, rest, the screen kept awake."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from contextlib import AbstractContextManager

import pytest
from playwright.sync_api import Browser, Page

from .looking import Visit, until, visiting
from .practising import VIEW, followed, name, practise, press, short, text
from .recordings import SPY

pytestmark = pytest.mark.xdist_group("practice-time")
Visiting = Callable[..., AbstractContextManager[Visit]]
LESSON = "the-long-dark/"
MOVES = f"document.getAnimations().filter((one) => one.effect.target.closest('{VIEW}'))"
# Where each finger's mark is at a time of the movement, and how far the moving one is from its arrow, in CSS pixels.
AT_TIME = f"""(share) => {{
  const [move] = {MOVES};
  move.pause();
  move.currentTime = share * move.effect.getTiming().duration;
  const middle = (one) => {{
    const {{ x, y, width, height }} = one.getBoundingClientRect();
    return [x + width / 2, y + height / 2];
  }};
  const away = ([x, y], [a, b]) => Math.hypot(x - a, y - b);
  const mover = middle(document.querySelector('{VIEW} [data-picture] .fp-mover > .fp-edge'));
  const arrow = document.querySelector('{VIEW} [data-picture] .fp-travel');
  const ring = document.querySelector('{VIEW} [data-picture] .fp-was');
  const onScreen = (spot) => {{
    const {{ x, y }} = new DOMPoint(spot.x, spot.y).matrixTransform(arrow.getScreenCTM());
    return [x, y];
  }};
  const spots = Array.from({{ length: 201 }}, (_, at) => arrow.getPointAtLength(arrow.getTotalLength() * at / 200));
  const still = [...document.querySelectorAll('{VIEW} [data-picture] .fp-stays')].map(middle);
  const fromArrow = Math.min(...spots.map((spot) => away(onScreen(spot), mover)));
  return {{ mover, ring: middle(ring), still, fromArrow, ends: [onScreen(spots[0]), onScreen(spots[200])] }};
}}"""
# A clock of the page's own, so that beats are counted and not waited for: fast(ms) runs every timer that falls due.
CLOCK = """(() => {
  let now = 0, next = 1, due = [];
  performance.now = () => now;
  window.setTimeout = (task, after = 0) => { due.push({ id: next, at: now + after, task }); return next++; };
  window.clearTimeout = (id) => { due = due.filter((one) => one.id !== id); };
  window.fast = (ms) => {
    for (const end = now + ms; ;) {
      due.sort((a, b) => a.at - b.at);
      if (!due.length || due[0].at > end) { now = end; return; }
      const one = due.shift();
      now = one.at;
      one.task();
    }
  };
})()"""
AWAKE = """(() => {
  window.locks = { taken: 0, held: 0 };
  Object.defineProperty(navigator, 'wakeLock', { value: { request: async () => {
    window.locks.taken += 1; window.locks.held += 1;
    const lock = new EventTarget();
    lock.release = async () => { window.locks.held -= 1; lock.dispatchEvent(new Event('release')); };
    return lock;
  } } });
})()"""
PLACES = (
    f"[...document.querySelectorAll('{VIEW} [data-pile], {VIEW} [data-next]')]"
    ".map((one) => JSON.stringify(one.getBoundingClientRect()))"
)
REFUSED = (
    "Object.defineProperty(navigator, 'wakeLock',"
    " { value: { request: async () => { throw new DOMException('no', 'NotAllowedError'); } } })"
)
ABSENT = "Object.defineProperty(navigator, 'wakeLock', { value: undefined })"


def near(one: list[float], other: list[float], within: float) -> bool:
    return abs(one[0] - other[0]) <= within and abs(one[1] - other[1]) <= within


def kept(page: Page, **settings: object) -> None:
    """Settings as the view keeps them."""
    text = ", ".join(f"{name}: {str(value).lower()}" for name, value in settings.items())
    page.add_init_script(f"localStorage.setItem('fingerpost:practice', JSON.stringify({{{text}}}))")


def on_the_way(one: list[float], start: list[float], end: list[float]) -> bool:
    """Whether a point lies between two others, to a pixel and a half."""
    length = math.dist(start, end)
    return abs(math.dist(start, one) + math.dist(one, end) - length) <= 1.5


def test_the_finger_travels_along_its_arrow_and_those_that_stay_keep_still(browser: Browser, address: str) -> None:
    turned = """([hand, view]) => {
      Object.assign(document.documentElement.dataset, { hand, view });
      document.documentElement.dispatchEvent(new CustomEvent('viewchange'));
    }"""
    with visiting(browser, address) as student:
        page = student.page
        page.emulate_media(reduced_motion="no-preference")
        practise(student, LESSON, block=1)
        for facing in (["right", "upright"], ["left", "upright"], ["right", "player"], ["left", "player"]):
            page.evaluate(turned, facing)
            press(page, "ArrowRight")
            assert page.evaluate(f"{MOVES}.length") == 1
            seen = [page.evaluate(AT_TIME, share / 10) for share in range(11)]
            ring, end, tip = seen[0]["ring"], seen[10]["mover"], seen[0]["ends"]
            assert near(seen[0]["mover"], ring, 0.5), "it begins where the finger was"
            for one in seen:
                # From the ring to the arrow and from its tip to the mark the way is straight.
                straight = on_the_way(one["mover"], ring, tip[0]) or on_the_way(one["mover"], tip[1], end)
                assert one["fromArrow"] < 1.5 or straight, (facing, one["fromArrow"])
            assert sum(one["fromArrow"] < 1.5 for one in seen) >= 3
            assert all(one["still"] == seen[0]["still"] for one in seen)
            assert len(seen[0]["still"]) == 2
            page.evaluate(f"{MOVES}.forEach((one) => one.cancel())")
            mark = page.locator(f"{VIEW} [data-picture] .fp-mover > .fp-edge").bounding_box()
            assert mark
            assert near(end, [mark["x"] + mark["width"] / 2, mark["y"] + mark["height"] / 2], 0.5)
            press(page, "ArrowLeft")


def test_the_way_back_is_seen_the_other_way_round(browser: Browser, address: str) -> None:
    with visiting(browser, address) as student:
        page = student.page
        page.emulate_media(reduced_motion="no-preference")
        practise(student, LESSON, block=1)
        press(page, "ArrowRight")
        there = [page.evaluate(AT_TIME, share)["mover"] for share in (0, 1)]
        page.click(f"{VIEW} [data-pair]")
        assert (name(page), page.get_attribute(f"{VIEW} [data-pair]", "aria-pressed")) == ("Am", "true")
        press(page, "ArrowRight")
        assert (name(page), short(page)) == ("C", "3 → A3")
        press(page, "ArrowRight")
        assert (name(page), short(page)) == ("Am", "3 → G2")
        back = [page.evaluate(AT_TIME, share) for share in (0, 0.5, 1)]
        assert near(back[0]["mover"], there[1], 0.5)
        assert back[1]["fromArrow"] < 1.5
        assert near(back[2]["mover"], there[0], 0.5)
        assert "to the G string (3), second fret" in text(page, "move")
        assert text(page, "stays") == "Fingers 1 and 2 stay."


# The mark of the finger that lies down or rolls up, and its numeral, at a time of the movement.
BAR_AT = f"""(share) => {{
  const all = {MOVES};
  all.forEach((one) => {{ one.pause(); one.currentTime = share * one.effect.getTiming().duration; }});
  const box = (one) => {{
    const {{ x, y, width, height }} = one.getBoundingClientRect();
    return [x, y, width, height].map(Math.round);
  }};
  const [mark] = all.map((one) => one.effect.target).filter((one) => one.tagName === 'rect').map(box);
  const numeral = all.map((one) => one.effect.target).find((one) => one.matches('.fp-numeral'));
  const picture = document.querySelector('{VIEW} [data-picture] svg');
  const neck = [...picture.querySelectorAll('.fp-string')].map(box);
  const shown = Math.min(...all.map((one) => Number(getComputedStyle(one.effect.target).opacity)));
  return {{ mark, numeral: box(numeral), shown, picture: box(picture), neck, count: all.length }};
}}"""


@pytest.mark.parametrize("view", ["upright", "player"])
def test_a_finger_that_lies_down_into_a_bar_or_rolls_up_stays_and_its_mark_grows_along_the_fret(
    browser: Browser, address: str, view: str
) -> None:
    along, across = (2, 3) if view == "upright" else (3, 2)
    with visiting(browser, address) as student:
        page = student.page
        page.emulate_media(reduced_motion="no-preference")
        page.add_init_script(f"localStorage.setItem('fingerpost:view', '{{\"view\": \"{view}\"}}')")
        practise(student, "the-gate/", block=1)
        press(page, "ArrowRight")
        for strings, grows in (((2, 1), False), ((1, 2), True)):
            press(page, "ArrowRight")
            start, half, end = (page.evaluate(BAR_AT, share) for share in (0, 0.5, 1))
            gap = abs(start["neck"][0][3 - across] - start["neck"][1][3 - across])
            sizes = [one["mark"][along] for one in (start, half, end)]
            assert abs(abs(sizes[2] - sizes[0]) - gap) <= 2, "from string to string"
            assert sizes == sorted(sizes, reverse=not grows), strings
            assert start["mark"][across] == half["mark"][across] == end["mark"][across]
            assert start["mark"][across - 2] == end["mark"][across - 2], "along its fret"
            assert abs(abs(end["numeral"][along - 2] - start["numeral"][along - 2]) - gap / 2) <= 2
            assert {start["shown"], half["shown"], end["shown"]} == {1}, "it never was in the air"


def test_a_finger_that_comes_down_hides_neither_the_nut_nor_reaches_out_of_the_picture(
    browser: Browser, address: str
) -> None:
    in_the_air = f"""() => {{
      const [move] = {MOVES};
      move.pause();
      move.currentTime = 0;
      const mark = move.effect.target.getBoundingClientRect();
      const picture = document.querySelector('{VIEW} [data-picture] svg').getBoundingClientRect();
      const nut = document.querySelector('{VIEW} [data-picture] .fp-nut')?.getBoundingClientRect();
      return [mark.left >= picture.left, mark.right <= picture.right, mark.bottom <= picture.bottom,
        !nut || mark.top > nut.top];
    }}"""
    with visiting(browser, address) as student:
        page = student.page
        page.emulate_media(reduced_motion="no-preference")
        practise(student, "the-gate/", block=0)
        press(page, "ArrowRight")
        assert page.evaluate(f"{MOVES}.length") == 1
        assert page.evaluate(in_the_air) == [True] * 4


@pytest.mark.parametrize("by", ["device", "choice"])
def test_without_movement_before_and_after_are_shown(browser: Browser, address: str, by: str) -> None:
    with visiting(browser, address) as student:
        page = student.page
        if by == "choice":
            page.emulate_media(reduced_motion="no-preference")
            kept(page, movement=False)
        practise(student, LESSON, block=1)
        press(page, "ArrowRight")
        assert page.evaluate(f"{MOVES}.length") == 0
        before = page.locator(f"{VIEW} [data-before]")
        assert before.is_visible()
        assert before.locator(".fp-stays").count() == 3
        assert before.locator(":is(.fp-was, .fp-arrives, .fp-travel)").count() == 0
        assert page.locator(f"{VIEW} [data-again]").is_hidden()


def test_time_counts_in_goes_on_by_beats_and_any_key_pauses(visit: Visiting) -> None:
    with visit() as student:
        page = student.page
        page.add_init_script(CLOCK)
        kept(page, tempo=60, beats=2, countIn=3)
        practise(student, LESSON)
        press(page, "p")
        seen = []
        for _ in range(10):
            lit = page.locator(f"{VIEW} .practice-now").all_inner_texts()
            seen.append((name(page), *lit))
            page.evaluate("fast(1000)")
        assert seen[:3] == [("Am", "1"), ("Am", "2"), ("Am", "3")]
        assert [one[0] for one in seen[3:]] == ["Am", "Am", "Am7", "Am7", "Am", "Am", "Asus2"]
        assert text(page, "run").split()[0] == "Pause"
        press(page, "x")
        page.evaluate("fast(20000)")
        assert (name(page), page.get_attribute(VIEW, "data-running")) == ("Asus2", None)
        assert text(page, "live") == "Paused."
        assert page.locator(f"{VIEW} [data-stopped]").inner_text() == "Paused."
        press(page, "p")
        page.evaluate("fast(60000)")
        assert (name(page), text(page, "live")) == ("Am", "The block ends here.")
        assert page.locator(f"{VIEW} [data-stopped]").inner_text() == "The block ends here.", "it is to be seen too"
        assert text(page, "where").startswith("Step 5 of 5")
        press(page, "ArrowLeft")
        assert text(page, "stopped") == ""
        press(page, "ArrowLeft", "ArrowLeft", "ArrowLeft", "p", "x")
        assert (text(page, "stopped"), text(page, "tally")) == ("Paused.", "")
        assert page.locator(f"{VIEW} [data-clean]").is_hidden(), "no change was made"


def test_a_key_of_the_browser_pauses_and_stays_the_browsers(visit: Visiting) -> None:
    """Escape too belongs to it, but not while time is kept: then it pauses, and leaves at the second press."""
    with visit() as student:
        page = practise(student, LESSON)
        for key, taken in (("F5", False), ("F11", False), ("x", True), ("Escape", True)):
            press(page, "p")
            # Not pressed: the page would be loaded anew before it could be asked.
            assert (
                page.evaluate(
                    "(key) => !document.dispatchEvent(new KeyboardEvent('keydown', { key, cancelable: true }))", key
                )
                == taken
            )
            assert followed(page).get_attribute(VIEW, "data-running") is None


def test_a_steps_own_beats_come_first(visit: Visiting) -> None:
    with visit() as student:
        page = student.page
        page.add_init_script(CLOCK)
        kept(page, tempo=60, beats=2, countIn=0)
        page.route(
            f"**/{LESSON}",
            lambda route: route.fulfill(
                response=(answer := route.fetch()),
                body=re.sub('data-step="(dark--[^"]*)" ', r'data-step="\1" data-beats="5" ', answer.text(), count=1),
            ),
        )
        practise(student, LESSON)
        press(page, "p")
        page.evaluate("fast(4900)")
        assert name(page) == "Am"
        page.evaluate("fast(200)")
        assert name(page) == "Am7"


@pytest.mark.parametrize(("tempo", "most"), [(120, 12), (208, 11)])
def test_the_beat_is_seen_in_a_small_row_and_never_over_three_times_a_second(
    visit: Visiting, tempo: int, most: int
) -> None:
    with visit(size=(390, 664)) as student:
        page = student.page
        page.add_init_script(CLOCK)
        kept(page, tempo=tempo, beats=4, countIn=0)
        practise(student, LESSON)
        press(page, "p")
        changes = page.evaluate(
            f"""() => {{
              const marks = document.querySelector('{VIEW} [data-beat]').children;
              const lit = () => [...marks].map((one) => one.className).join();
              let was = lit(), changes = 0;
              for (let at = 0; at < 5000; at += 10) {{ fast(10); if (lit() !== was) {{ changes += 1; was = lit(); }} }}
              return changes;
            }}"""
        )
        assert 6 <= changes <= most
        box = page.locator(f"{VIEW} [data-beat]").bounding_box()
        assert box
        assert box["width"] * box["height"] < 0.1 * 390 * 664


def test_a_round_ends_with_the_question_and_the_answer_begins_the_next(visit: Visiting) -> None:
    with visit() as student:
        page = student.page
        page.add_init_script(CLOCK)
        kept(page, tempo=60, beats=1, countIn=1)
        practise(student, LESSON, block=1)
        press(page, "ArrowRight")
        until(page, f"document.querySelector('{VIEW} [data-tally]').textContent === 'Am to C: clean?'")
        page.click(f"{VIEW} [data-pair]")
        for answer in ("PageDown", "PageUp", "c", "click"):
            press(page, "p")
            page.evaluate("fast(10000)")
            assert text(page, "tally") == "Am to C and back: was it clean?"
            assert text(page, "next").split() == ["Clean"]
            assert text(page, "back").split() == ["Not", "clean"]
            for size in ((320, 256), (844, 390), (390, 844)):
                page.set_viewport_size({"width": size[0], "height": size[1]})
                tally = page.locator(f"{VIEW} [data-tally]").bounding_box()
                assert tally
                assert 0 < tally["y"] < tally["y"] + tally["height"] < size[1], "what is asked is in sight"
            if answer == "click":
                page.click(f"{VIEW} [data-next]")
            else:
                press(page, answer)
            assert page.get_attribute(VIEW, "data-running") is not None, "the answer begins the next round"
            press(page, "x")
        press(page, "ArrowRight")
        assert text(page, "tally") == "Am to C: 3 of 4 clean"
        page.click(f"{VIEW} [data-unclean]")
        assert text(page, "tally") == "Am to C: 3 of 5 clean"
        press(page, "ArrowRight")
        assert text(page, "tally") == "C to Am: 3 of 4 clean"


def test_a_browser_that_keeps_nothing_says_so_and_practice_goes_on(visit: Visiting) -> None:
    blocked = """for (const name of ['localStorage', 'sessionStorage']) Object.defineProperty(window, name, {
      get() { throw new DOMException('blocked', 'SecurityError'); } })"""
    with visit() as student:
        student.page.add_init_script(blocked)
        page = practise(student, LESSON)
        press(page, "ArrowRight")
        until(page, f"document.querySelector('{VIEW} [data-tally]').textContent === 'Am to Am7: clean?'")
        press(page, "c")
        assert text(page, "notice") == "Clean tries can’t be kept in this browser."
        assert (page.locator(f"{VIEW} [data-notice]").bounding_box() or {"y": 999})["y"] < 844 - 100, "it is in sight"
        press(page, "ArrowRight", "p")
        assert page.get_attribute(VIEW, "data-running") is not None


def test_settings_that_are_not_ours_are_brought_within_bounds(visit: Visiting) -> None:
    with visit() as student:
        student.page.add_init_script(
            'localStorage.setItem(\'fingerpost:practice\', \'{"tempo": 0, "beats": -4, "countIn": 1e9, "space": 3}\')'
        )
        page = practise(student, LESSON)
        press(page, "p")
        assert text(page, "run").split()[-1] == "30"
        assert page.locator(f"{VIEW} [data-beat] li").count() == 8


def test_the_share_is_shown_as_it_is_and_nothing_is_made_of_it(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON, block=1)
        said = (page.locator(VIEW).text_content() or "").casefold()
        assert "studies" in said
        assert "days" in said
        for word in ("streak", "badge", "reward", "score", "level", "well done", "great"):
            assert word not in said


def test_two_chosen_steps_are_changed_between_and_an_address_says_which(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON, block=0)
        page.click(f"{VIEW} summary")
        page.click(f"{VIEW} [data-set-pair]")
        assert (name(page), text(page, "where")[:14]) == ("Am", "Back and forth")
        page.click(f"{VIEW} summary")
        page.select_option(f"{VIEW} [name=one]", label="4. Asus2")
        page.select_option(f"{VIEW} [name=other]", label="2. Am7")
        page.click(f"{VIEW} [data-set-pair]")
        names = [name(page)]
        for _ in range(3):
            press(page, "ArrowRight")
            names.append(name(page))
        assert names == ["Am7", "Asus2", "Am7", "Asus2"]
        assert text(page, "move") == "Go to the shape in the picture."
        assert page.locator(f"{VIEW} [data-picture] :is(.fp-was, .fp-travel, .fp-arrives)").count() == 0
        ends = page.locator(".fp-step").evaluate_all("(steps) => [steps[1].id, steps[3].id]")
        until(page, "([one, other]) => location.hash === `#practise=${one},${other}`", ends)
        page.reload()
        until(page, f"document.querySelector('{VIEW} [data-where]')?.textContent.startsWith('Back and forth')")
        assert name(page) == "Am7"
        page.click(f"{VIEW} summary")
        page.select_option(f"{VIEW} [name=one]", label="1. Am")
        page.select_option(f"{VIEW} [name=other]", label="3. Am")
        page.click(f"{VIEW} [data-set-pair]")
        assert "make no change" in text(page, "no-pair")


def test_the_screen_is_kept_awake_while_practice_goes_on_and_let_go_after(visit: Visiting) -> None:
    with visit() as student:
        student.page.add_init_script(AWAKE)
        page = practise(student, LESSON)
        until(page, "window.locks.held === 1")
        press(page, "p")
        press(page, "x")
        assert page.evaluate("window.locks.held") == 1
        page.click(f"{VIEW} [data-leave]")
        until(page, "window.locks.held === 0")
        assert page.evaluate("window.locks.taken") == 1


@pytest.mark.parametrize("lock", [REFUSED, ABSENT])
def test_a_browser_that_cannot_keep_the_screen_awake_says_so_plainly(visit: Visiting, lock: str) -> None:
    with visit() as student:
        student.page.add_init_script(lock)
        page = practise(student, LESSON)
        until(page, f"document.querySelector('{VIEW} [data-notice]').textContent.includes('keep this screen awake')")
        for width, height in ((390, 844), (390, 664), (844, 390)):
            page.set_viewport_size({"width": width, "height": height})
            notice, foot = (page.locator(f"{VIEW} {one}").bounding_box() for one in ("[data-notice]", ".practice-foot"))
            assert notice
            assert foot
            assert foot["y"] <= notice["y"] < notice["y"] + notice["height"] <= height, "it is in sight"
        page.set_viewport_size({"width": 390, "height": 844})
        shown = page.evaluate(PLACES)
        assert len(shown) == 2
        page.evaluate(f"document.querySelector('{VIEW} [data-notice]').textContent = ''")
        assert page.evaluate(PLACES) == shown, "what is said moves neither the picture nor what is tapped"
        page.evaluate(f"document.querySelector('{VIEW} [data-notice]').textContent = 'again'")
        press(page, "ArrowRight")
        assert name(page) == "Am7"
        assert text(page, "notice") == "", "it has been read"


def test_after_the_authors_minutes_a_quiet_word_asks_for_a_rest(visit: Visiting) -> None:
    with visit() as student:
        page = student.page
        # Twenty minutes were practised in the lesson before, three minutes ago.
        page.add_init_script(
            "sessionStorage.getItem('fingerpost:worked') ?? "
            "sessionStorage.setItem('fingerpost:worked', JSON.stringify({ seconds: 1200, at: Date.now() - 180000 }))"
        )
        practise(student, LESSON)
        rest = page.locator(f"{VIEW} [data-rest]")
        until(page, f"document.querySelector('{VIEW} [data-rest]').hidden === false")
        assert text(page, "rest-says") == (
            "You have practised for 20 minutes. "
            "Let the hand hang, and the shoulders drop: about 5 minutes (common practice)."
        )
        press(page, "ArrowRight")
        assert name(page) == "Am7", "it stops nothing"
        page.click(f"{VIEW} [data-rested]")
        assert rest.is_hidden()
        page.reload()
        until(page, f"document.querySelector('{VIEW} [data-picture] svg') !== null")
        assert page.locator(f"{VIEW} [data-rest]").is_hidden()


def test_one_minute_is_one_minute(visit: Visiting) -> None:
    with visit() as student:
        page = student.page
        page.add_init_script("sessionStorage['fingerpost:worked'] = JSON.stringify({ seconds: 60, at: Date.now() })")
        page.route(
            f"**/{LESSON}",
            lambda route: route.fulfill(
                response=(answer := route.fetch()),
                body=re.sub(
                    r'data-rest-after="\d+" data-rest-for="\d+"', 'data-rest-after="1" data-rest-for="1"', answer.text()
                ),
            ),
        )
        practise(student, LESSON)
        until(page, f"document.querySelector('{VIEW} [data-rest]').hidden === false")
        assert text(page, "rest-says") == (
            "You have practised for 1 minute. "
            "Let the hand hang, and the shoulders drop: about 1 minute (common practice)."
        )


def test_the_beat_and_the_arms_have_borders_in_forced_colours(visit: Visiting) -> None:
    with visit(forced_colors="active") as student:
        page = practise(student, LESSON)
        press(page, "p")
        for part in (".practice-now", "[data-next]", "[data-back]", "[data-run]"):
            width, style = page.evaluate(
                "(part) => { const { borderTopWidth, borderTopStyle } = getComputedStyle(document.querySelector(part));"
                " return [parseFloat(borderTopWidth), borderTopStyle]; }",
                f"{VIEW} {part}",
            )
            assert (width >= 2, style) == (True, "solid"), part


def test_a_step_is_heard_with_the_authors_strokes_and_a_rest_has_nothing_to_hear(visit: Visiting) -> None:
    """The last G of the round: `D DU -UDU` in two beats, so down on the first, down and up on the second."""
    with visit() as student:
        page = student.page
        page.add_init_script(SPY)
        kept(page, tempo=120)
        practise(student, "the-midnight-round/", block=1)
        press(page, "ArrowLeft")
        assert "↓ ↓ ↑ · ↑ ↓ ↑" in text(page, "more")
        page.click(f"{VIEW} [data-strum]")
        until(page, "spy.starts.length === 18")
        times = [at for at, _ in page.evaluate("spy.starts")]
        assert [round(times[stroke] - times[0], 2) for stroke in (6, 12)] == [0.5, 0.75]
        practise(student, "the-gate/", block=1)
        hear = f"{VIEW} [data-strum]"
        seen = {}
        for _ in range(5):
            seen[name(page)] = page.get_attribute(hear, "aria-disabled")
            press(page, "ArrowRight")
        assert (seen["Rest"], seen["F"]) == ("true", "false")


def test_the_chord_and_the_metronome_sound_only_when_asked_for(visit: Visiting) -> None:
    spy = """(() => {
      window.made = 0; window.sounded = [];
      const own = window.AudioContext;
      window.AudioContext = class extends own { constructor(...given) { super(...given); window.made += 1; } };
      const start = AudioScheduledSourceNode.prototype.start;
      AudioBufferSourceNode.prototype.start = function (...at) {
        window.sounded.push(this.buffer.duration);
        start.apply(this, at);
      };
    })()"""
    with visit() as student:
        page = student.page
        page.add_init_script(spy)
        kept(page, tempo=200, beats=1, countIn=2)
        practise(student, LESSON, block=1)
        press(page, "ArrowRight", "p")
        until(page, f"document.querySelector('{VIEW} [data-live]').textContent === 'The block ends here.'")
        assert page.evaluate("[window.made, window.sounded.length]") == [0, 0]
        press(page, "ArrowLeft")
        page.click(f"{VIEW} [data-strum]")
        until(page, "window.sounded.length === 5")
        assert page.evaluate("window.made") == 1
        page.click(f"{VIEW} summary")
        page.check(f"{VIEW} [name=sound]")
        page.focus(f"{VIEW} h2")
        press(page, "ArrowLeft", "ArrowLeft", "p")
        until(page, "window.sounded.length >= 8")
        assert page.evaluate("window.sounded.slice(5).every((seconds) => seconds < 0.5)"), "ticks are short"
        assert page.evaluate("window.made") == 1
