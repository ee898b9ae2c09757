"""Hearing a lesson: only on request, one string computed a task, in order, silent after stop; reading aloud."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager

import pytest

from .looking import Visit, until
from .recordings import SPY

pytestmark = pytest.mark.xdist_group("sound")
Visiting = Callable[..., AbstractContextManager[Visit]]
LESSON = "while-the-kettle-boils/"
# A voice of the device and one from elsewhere, which would send the words away.
VOICES = """(() => {
  const voices = [%s];
  window.said = [];
  window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
  Object.defineProperty(window, 'speechSynthesis', { value: {
    getVoices: () => voices, cancel() {}, addEventListener() {},
    speak(one) { window.said.push([one.text, one.voice.name]); },
  } });
})()"""
FAR = "{ name: 'far', lang: 'en-US', localService: false, default: true }"
NEAR = "{ name: 'near', lang: 'en-GB', localService: true, default: false }"
OFFLINE = """async (spread) => {
  const { pluckedString } = await import('/js/sound/string.js');
  const { Voices } = await import('/js/sound/voices.js');
  const context = new OfflineAudioContext(1, 48000 * 2, 48000);
  const voices = new Voices(context);
  voices.level = 1;
  const buffers = [40, 45, 50, 55, 59, 64].map((midi) => {
    const samples = pluckedString(midi, 48000);
    const buffer = context.createBuffer(1, samples.length, 48000);
    buffer.copyToChannel(samples, 0);
    return buffer;
  });
  const starts = [];
  const start = AudioBufferSourceNode.prototype.start;
  AudioBufferSourceNode.prototype.start = function (at) {
    starts.push([buffers.indexOf(this.buffer), at]);
    return start.call(this, at);
  };
  voices.strings(buffers, 0.1, spread);
  voices.strings(buffers, 1.6, spread);
  context.suspend(1).then(() => { voices.stop(); context.resume(); });
  const data = (await context.startRendering()).getChannelData(0);
  AudioBufferSourceNode.prototype.start = start;
  const most = (all) => all.reduce((loudest, one) => Math.max(loudest, Math.abs(one)), 0);
  const loudest = (from, to) => most(data.slice(from * 48000, to * 48000));
  const steps = data.slice(1).map((one, at) => Math.abs(one - data[at]));
  return { starts, before: loudest(0, 0.1), peak: loudest(0, 2), after: loudest(1.06, 2),
    jump: most(steps.slice(0.99 * 48000, 1.1 * 48000)) };
}"""


def test_a_strum_goes_in_order_stays_below_full_scale_and_is_silent_after_stop(visit: Visiting) -> None:
    with visit() as student:
        heard = student.open(LESSON).evaluate(OFFLINE, 0.028)
    first = heard["starts"][:6]
    assert [string for string, _ in first] == [0, 1, 2, 3, 4, 5]
    assert [round(at, 3) for _, at in first] == [0.1, 0.128, 0.156, 0.184, 0.212, 0.24]
    assert heard["before"] == 0
    assert 0.1 < heard["peak"] < 0.95
    assert heard["after"] < 0.001, "also what was on the clock for later"
    assert heard["jump"] < 0.06, "no click where it stops"


def test_nothing_sounds_and_nothing_is_fetched_before_it_is_asked_for(visit: Visiting) -> None:
    with visit() as student:
        student.page.add_init_script(SPY)
        page = student.open(LESSON)
        page.mouse.wheel(0, 900)
        page.wait_for_timeout(300)
        assert not any("/sound/player.js" in url or "/sound/hearing.js" in url for url in student.asked)
        assert page.evaluate("[spy.contexts, spy.starts.length]") == [0, 0]
        page.locator("[data-hear=step]").first.click()
        until(page, "spy.starts.length >= 5")
        assert page.evaluate("[spy.contexts, spy.most]") == [1, 1], "one string is computed a task"
        times = [at for at, _ in page.evaluate("spy.starts")]
        assert times == sorted(times)
        assert len(set(times)) == len(times)


def test_a_string_is_computed_once_for_each_pitch(visit: Visiting) -> None:
    with visit() as student:
        student.page.add_init_script(SPY)
        page = student.open(LESSON)
        step = page.locator("[data-hear=step]").first
        step.click()
        until(page, "spy.starts.length === 5")
        computed = page.evaluate("spy.tasks")
        step.click()
        until(page, "document.querySelector('[data-hear=step]').textContent === 'Hear it'")
        step.click()
        until(page, "spy.starts.length === 10")
        assert page.evaluate("spy.tasks") == computed == 5


def test_the_control_of_what_sounds_stops_it_and_escape_does_too(visit: Visiting) -> None:
    with visit() as student:
        page = student.open(LESSON)
        block = page.locator("[data-hear=block]").first
        for stop in (block.click, lambda: page.keyboard.press("Escape")):
            block.click()
            until(page, "document.querySelectorAll('.fp-step[data-sounding]').length === 1")
            assert block.inner_text() == "Stop"
            stop()
            until(page, "document.querySelectorAll('[data-sounding]').length === 0")
            assert block.inner_text() == "Play it as music"


PLAY = "[data-hear=block]"
# Where the step that sounds now lies, and its place among the steps; null while none does.
SOUNDING = """(() => {
  const step = document.querySelector('.fp-step[data-sounding]');
  if (!step) return null;
  const { top } = step.querySelector('.fp-arm').getBoundingClientRect();
  const bottom = step.querySelector('.fp-frame').getBoundingClientRect().bottom;
  return { at: [...document.querySelectorAll('.fp-step')].indexOf(step), seen: top >= 0 && bottom <= innerHeight };
})()"""
FAST = "localStorage.setItem('fingerpost:practice', '{\"tempo\": 208}')"


@pytest.mark.parametrize("size", [(390, 844), (390, 664), (1280, 900)])
def test_what_sounds_of_a_block_is_brought_into_sight_and_so_is_what_stops_it(
    visit: Visiting, size: tuple[int, int]
) -> None:
    with visit(size=size) as student:
        student.page.add_init_script(FAST)
        page = student.open(LESSON)
        page.locator(PLAY).first.click()
        for step in (1, 2, 3):
            until(page, f"({SOUNDING})?.at === {step} && ({SOUNDING}).seen", seconds=20)
            box = page.locator(PLAY).first.bounding_box()
            assert box
            assert 0 <= box["y"] < 60
        page.locator(PLAY).first.click()
        until(page, "document.querySelectorAll('[data-sounding]').length === 0")
        place = "(one) => getComputedStyle(one.parentElement).position"
        assert page.locator(PLAY).first.evaluate(place) == "static"


def test_whoever_scrolls_by_hand_is_left_where_they_are_until_the_block_is_played_again(visit: Visiting) -> None:
    with visit(size=(390, 664)) as student:
        student.page.add_init_script(FAST)
        page = student.open(LESSON)
        for go in (lambda: page.mouse.wheel(0, 3000), lambda: page.keyboard.press("End")):
            page.locator(PLAY).first.click()
            until(page, f"({SOUNDING})?.at === 1 && ({SOUNDING}).seen", seconds=20)
            go()
            until(page, f"!({SOUNDING})?.seen")
            until(page, f"({SOUNDING})?.at === 3", seconds=20)
            assert not page.evaluate(f"({SOUNDING}).seen"), "nobody is pulled back"
            page.keyboard.press("Escape")
            until(page, "document.querySelectorAll('[data-sounding]').length === 0")


@pytest.mark.parametrize(("motion", "way"), [("reduce", "instant"), ("no-preference", "smooth")])
def test_the_page_glides_to_what_sounds_only_for_who_wants_motion(visit: Visiting, motion: str, way: str) -> None:
    with visit(size=(390, 664)) as student:
        student.page.emulate_media(reduced_motion=motion)
        student.page.add_init_script(FAST)
        student.page.add_init_script(
            "(() => { window.ways = []; const scroll = window.scrollBy.bind(window);"
            " window.scrollBy = (how) => { window.ways.push(how.behavior); scroll(how); }; })()"
        )
        page = student.open(LESSON)
        page.locator(PLAY).first.click()
        until(page, f"({SOUNDING})?.at === 2 && ({SOUNDING}).seen", seconds=20)
        assert set(page.evaluate("ways")) == {way}


def test_what_changes_is_heard_alone_and_then_in_both_chords(visit: Visiting) -> None:
    with visit() as student:
        student.page.add_init_script(SPY)
        page = student.open(LESSON)
        step = page.locator(".fp-step:has([data-hear=change]:visible)").first
        before, after = (
            step.evaluate(f"(one) => {who}.dataset.pitches.split(' ').length")
            for who in ("one.previousElementSibling", "one")
        )
        step.locator("[data-hear=change]").click()
        until(page, f"spy.starts.length === {2 + before + after}", seconds=15)
        times = [at for at, _ in page.evaluate("spy.starts")]
        assert [round(times[n + 1] - times[n], 2) for n in (0, 1)] == [1.1, 1.1], "old note, new note, chords"
        page.keyboard.press("Escape")


def test_each_string_that_sounds_has_a_control_with_its_own_pitch(visit: Visiting) -> None:
    pitches = """async () => {
      const { stringsOf } = await import('/js/sound/score.js');
      return [...document.querySelectorAll('.fp-step:not([data-kind=rest])')].map((step) => [
        stringsOf(step).filter((one) => one !== null).join(' '), step.dataset.pitches,
        step.querySelectorAll('[data-hear=string]').length, stringsOf(step).filter((one) => one !== null).length]);
    }"""
    with visit() as student:
        for lesson in (LESSON, "the-mast-hums-e/", "storm-from-the-south/", "the-gate/"):
            for read, written, controls, sounding in student.open(lesson).evaluate(pitches):
                assert read == written
                assert controls == sounding


def test_the_strings_of_a_table_are_one_stop_of_the_tab_key_and_arrows_go_along_them(visit: Visiting) -> None:
    with visit() as student:
        page = student.open(LESSON)
        strings = page.locator(".fp-step").first.locator("[data-hear=string]")
        strings.first.focus()
        page.keyboard.press("ArrowRight")
        page.keyboard.press("ArrowRight")
        assert strings.nth(2).evaluate("(one) => one === document.activeElement")
        assert strings.evaluate_all("(all) => all.filter((one) => one.tabIndex === 0).length") == 1
        box = strings.nth(2).bounding_box()
        assert box
        assert min(box["width"], box["height"]) >= 24, "WCAG 2.2, 2.5.8"


def test_the_volume_is_kept_and_the_listening_levels_are_said(visit: Visiting) -> None:
    with visit() as student:
        page = student.open(LESSON)
        page.click("[data-sound-panel] summary")
        assert "80 dB(A)" in page.inner_text("[data-sound-panel]")
        page.locator("[data-volume]").fill("0.2")
        page.reload()
        assert page.locator("[data-volume]").input_value() == "0.2"


def test_where_no_sound_can_be_made_no_control_is_shown_or_it_is_said(visit: Visiting) -> None:
    with visit() as student:
        student.page.add_init_script("delete window.AudioContext")
        page = student.open(LESSON)
        assert page.locator("[data-hear]:visible").count() == 0
    with visit() as student:
        student.page.add_init_script(
            "AudioContext.prototype.resume = () => Promise.reject(new Error('no'));"
            "Object.defineProperty(AudioContext.prototype, 'state', { get: () => 'suspended' })"
        )
        page = student.open(LESSON)
        page.locator("[data-hear=step]").first.click()
        until(page, "document.querySelector('.hear-says')?.textContent.startsWith('No sound can be made')")


def test_only_a_voice_of_the_device_reads_aloud(visit: Visiting) -> None:
    with visit() as student:
        student.page.add_init_script(VOICES % FAR)
        assert student.open(LESSON).locator("[data-aloud]:visible").count() == 0
    with visit() as student:
        student.page.add_init_script(VOICES % f"{FAR}, {NEAR}")
        page = student.open(LESSON)
        page.locator("[data-aloud]:visible").nth(1).click()
        ((text, voice),) = page.evaluate("said")
        assert voice == "near"
        assert text.index("Stays:") < text.index("Move:")


# Counts the sounds that are told to end early.
STOPS = """(() => {
  window.stops = 0;
  const stop = AudioBufferSourceNode.prototype.stop;
  AudioBufferSourceNode.prototype.stop = function (...all) { window.stops += 1; return stop.apply(this, all); };
})()"""
RING_TONE = ".ring [data-tone]"


def test_the_string_of_the_check_is_heard_stopped_and_silences_nothing_that_comes_after(visit: Visiting) -> None:
    with visit() as student:
        student.page.add_init_script(SPY)
        student.page.add_init_script(STOPS)
        page = student.open(LESSON)
        page.locator("[data-ring]:visible").first.click()
        tone = page.locator(RING_TONE)
        for started in (1, 2):
            tone.click()
            until(page, f"spy.starts.length === {started}")
            assert tone.inner_text() == "Stop"
            if started == 1:
                tone.click()
                until(page, "document.querySelector('[data-sounding]') === null")
                assert tone.inner_text() == "Hear this string"
        page.keyboard.press("Escape")
        until(page, "document.querySelector('.ring') === null && stops === 2")
        step = page.locator("[data-hear=step]:visible").first
        step.click()
        until(page, "spy.starts.length > 2")
        assert step.inner_text() == "Stop"
        until(page, "document.querySelector('[data-hear=step]').textContent === 'Hear it'")
        assert page.evaluate("stops") == 2, "the strum rings to its own end"


def test_going_back_leaves_the_check(visit: Visiting) -> None:
    with visit() as student:
        page = student.open(LESSON)
        page.evaluate("location.hash = 'main'")
        page.locator("[data-ring]:visible").first.click()
        page.wait_for_selector(".ring[open]")
        page.go_back()
        until(page, "document.querySelector('.ring') === null")


# A voice of the device that speaks until it is told not to; `left` outlives the page.
SPEAKS = """(() => {
  let now = null;
  const end = () => { const said = now; now = null; window.speaking = false; setTimeout(() => said?.onend?.()); };
  window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
  Object.defineProperty(window, 'speechSynthesis', { value: {
    getVoices: () => [{ name: 'near', lang: 'en-GB', localService: true, default: true }],
    addEventListener() {},
    cancel() { if (now) sessionStorage.setItem('left', now.text.slice(0, 2)); end(); },
    speak(one) { now = one; window.speaking = true; window.finish = end; },
  } });
})()"""


def test_what_is_read_aloud_can_be_stopped_by_its_own_control_and_by_escape(visit: Visiting) -> None:
    with visit() as student:
        student.page.add_init_script(SPEAKS)
        page = student.open(LESSON)
        first, second = (page.locator("[data-aloud]:visible").nth(at) for at in (0, 1))
        for stop in (first.click, lambda: page.keyboard.press("Escape"), lambda: page.evaluate("finish()")):
            first.click()
            assert (page.evaluate("speaking"), first.inner_text()) == (True, "Stop")
            stop()
            until(page, "document.querySelectorAll('[data-sounding]').length === 0")
            assert (page.evaluate("speaking"), first.inner_text()) == (False, "Read aloud")
        first.click()
        second.click()
        until(page, "document.querySelectorAll('[data-sounding]').length === 1")
        assert (first.inner_text(), second.inner_text()) == ("Read aloud", "Stop")
        assert page.evaluate("speaking")


@pytest.mark.parametrize("other", ["[data-hear=step]", "[data-hear=string]", "[data-ring]", "[data-practise]"])
def test_what_is_read_aloud_ends_where_something_else_begins(visit: Visiting, other: str) -> None:
    with visit() as student:
        student.page.add_init_script(SPEAKS)
        page = student.open(LESSON)
        aloud = page.locator("[data-aloud]:visible").first
        aloud.click()
        assert page.evaluate("speaking")
        page.locator(other).first.click()
        until(page, "!speaking")
        assert aloud.inner_text() == "Read aloud"


def test_what_is_read_aloud_ends_when_the_page_is_left(visit: Visiting) -> None:
    with visit() as student:
        student.page.add_init_script(SPEAKS)
        page = student.open(LESSON)
        page.locator("[data-aloud]:visible").first.click()
        assert page.evaluate("[speaking, sessionStorage.getItem('left')]") == [True, None]
        page.goto(student.address)
        assert page.evaluate("sessionStorage.getItem('left')") is not None


def test_without_scripts_there_is_nothing_to_press(visit: Visiting) -> None:
    with visit(java_script_enabled=False) as student:
        student.page.goto(student.address + LESSON)
        assert student.page.locator(".hear button:visible, [data-hear]:visible, .sound:visible").count() == 0
