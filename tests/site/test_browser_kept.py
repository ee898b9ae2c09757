"""What is kept of practice: clean tries, what is due today, what changed since, files of progress, forgetting."""

from __future__ import annotations

import json
from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path

import pytest
from playwright.sync_api import Page

from .looking import DESK, Visit, until
from .practising import VIEW, followed, name, practise, press, shown, text

pytestmark = pytest.mark.xdist_group("kept")
Visiting = Callable[..., AbstractContextManager[Visit]]
LESSON = "the-long-dark/"
DAY = 24 * 60 * 60 * 1000
STORED = "JSON.parse(localStorage['fingerpost:steps:/'] ?? 'null')?.steps ?? []"
# As if all had been done so many days ago.
EARLIER = """(days) => {
  const kept = JSON.parse(localStorage['fingerpost:steps:/']);
  for (const step of kept.steps) { step.last -= days * 86400000; step.day.number -= days; }
  localStorage['fingerpost:steps:/'] = JSON.stringify(kept);
}"""
# As if a step had been taught by another shape when it was practised.
OTHER_SHAPE = """([to, shape]) => {
  const kept = JSON.parse(localStorage['fingerpost:steps:/']);
  for (const step of kept.steps.filter((one) => one.to === to)) Object.assign(step, { to: 'was', toShape: shape });
  localStorage['fingerpost:steps:/'] = JSON.stringify(kept);
}"""


def tried(student: Visit, *said: bool, block: int = 1) -> Page:
    """Practises the first change of a block, and says of each try whether it was clean."""
    page = practise(student, LESSON, block=block)
    press(page, "ArrowRight")
    for clean in said:
        page.click(f"{VIEW} [data-{'clean' if clean else 'unclean'}]")
    return page


def change(page: Page, number: int, lesson: str = LESSON) -> dict[str, object]:
    """A record of the n-th change of a lesson that is open, tried twice a day ago, clean once."""
    day = page.evaluate(
        "Math.round(Date.UTC(...[new Date()].flatMap((d) => [d.getFullYear(), d.getMonth(), d.getDate()])) / 86400000)"
    )
    steps = page.locator(".fp-step")
    ends = [steps.nth(at) for at in (number - 1, number)]
    fields = {
        end: {
            "id": step.get_attribute("id"),
            "shape": step.get_attribute("data-shape"),
            "name": step.locator(".fp-chord").first.inner_text(),
        }
        for end, step in zip(("from", "to"), ends, strict=True)
    }
    block = page.evaluate("(id) => document.getElementById(id).closest('.fp-block').id", fields["to"]["id"])
    return {
        "page": lesson, "title": page.inner_text("h1"), "block": block, "ordinal": number,
        **{end: fields[end]["id"] for end in fields},
        **{f"{end}Shape": fields[end]["shape"] for end in fields},
        **{f"{end}Name": fields[end]["name"] for end in fields},
        "clean": 1, "tries": 2, "last": (day - 1) * DAY, "done": False, "gone": False, "rung": 0,
        "day": {"number": day - 1, "clean": 1, "tries": 2},
    }  # fmt: skip


def keep(page: Page, records: list[dict[str, object]]) -> None:
    page.evaluate("(steps) => { localStorage['fingerpost:steps:/'] = JSON.stringify({ version: 1, steps }); }", records)


def test_clean_tries_are_kept_and_shown_as_they_are(visit: Visiting) -> None:
    with visit() as student:
        page = tried(student, True, False, True)
        assert "2 of 3 clean" in page.inner_text(f"{VIEW} [data-tally]")
        page = student.open(LESSON)
        until(page, "document.querySelectorAll('.kept-share').length === 1")
        item = page.locator("li:has(.kept-share)")
        assert "Am to C: 5 clean of 6" in item.inner_text()
        assert page.inner_text(".kept-share").startswith("2 of 3 clean, last on ")
        (kept,) = page.evaluate(STORED)
        assert (kept["page"], kept["block"], kept["ordinal"]) == (LESSON, "dark-lamp", 1)
        assert (kept["fromShape"][:6], kept["toShape"][:6]) == ("x02210", "x32010")


def test_tomorrow_the_front_page_offers_what_was_tried_and_leads_into_it(visit: Visiting) -> None:
    with visit() as student:
        tried(student, False)
        page = student.open()
        page.wait_for_timeout(200)
        assert page.is_hidden(".today")
        page.evaluate(EARLIER, 1)
        page = student.open()
        until(page, "document.querySelector('.today')?.checkVisibility()")
        assert page.inner_text(".today li a") == "Am to C"
        assert "The long dark: 0 of 1 clean so far" in page.inner_text(".today li")
        page.click(".today li a")
        shown(page)
        assert page.inner_text(f"{VIEW} [data-where]").startswith("Back and forth")
        assert name(page) == "Am"


def test_what_is_due_is_few_and_mixed(visit: Visiting) -> None:
    with visit() as student:
        page = student.open(LESSON)
        one = [change(page, number) for number in range(1, 5)]
        keep(page, [*one, *({**record, "block": "other", "to": f"{record['to']}2"} for record in one)])
        page = student.open()
        until(page, "document.querySelectorAll('.today li').length === 6")
        assert page.inner_text(".today [data-more]") == "2 more changes are due. They come when these are done."
        kept = page.evaluate(STORED)
        links = page.locator(".today li a").evaluate_all(
            "(all) => all.map((one) => decodeURIComponent(one.hash.split(',')[1]))"
        )
        blocks = [next(one["block"] for one in kept if one["to"] == to) for to in links]
        assert blocks == ["dark", "other"] * 3


def test_the_words_above_what_is_due_are_true_of_it(visit: Visiting) -> None:
    clean = {"clean": 2, "day": {"number": 1, "clean": 2, "tries": 2}}
    with visit() as student:
        page = student.open(LESSON)
        one = [change(page, number) for number in range(1, 5)]
        eight = [*one, *({**record, "block": "other", "to": f"{record['to']}2"} for record in one)]
        for records, words in (
            ([{**one[0], **clean}], "This change is due again."),
            (one[:2], "These changes are due again, mixed."),
            ([one[0], *({**each, **clean} for each in eight[1:])], "These are the least clean of the changes"),
            ([{**each, **clean} for each in eight], "These are some of the changes that are due again, mixed."),
        ):
            keep(page, records)
            page = student.open()
            until(page, "document.querySelector('.today')?.checkVisibility()")
            assert page.inner_text(".today > p").startswith(words)
            assert "least clean" not in page.inner_text(".today") or "least clean" in words


def test_a_step_that_changed_since_says_so_and_what_changed(visit: Visiting) -> None:
    with visit() as student:
        tried(student, True, False)
        page = student.open(LESSON)
        (kept,) = page.evaluate(STORED)
        page.evaluate(OTHER_SHAPE, [kept["to"], "x02010/--2-1-"])
        page = student.open(LESSON)
        until(page, "document.querySelectorAll('.kept-changed').length === 1")
        assert page.locator(f"[id='{kept['to']}'] .kept-changed").count() == 1
        said = page.inner_text(".kept-changed")
        assert "This step has changed since you practised it. 1 of 2 clean, last on" in said
        assert "String 5: was open, is now fret 3 with finger 3." in said
        assert "String 4" not in said
        page.click(".kept-changed button")
        assert page.locator(".kept-changed").count() == 0
        assert page.evaluate(STORED) == []


@pytest.mark.parametrize("early", [True, False])
def test_a_step_that_is_as_it_was_says_only_that_the_other_has_changed(visit: Visiting, early: bool) -> None:
    """Changed back and forth, the second step taught by another shape since; also as kept by an earlier version."""
    with visit() as student:
        page = student.open(LESSON)
        there = {**change(page, 2), "to": "was", "toShape": "x02010/--2-1-", "toName": "Old"}
        mirror = {"from": "to", "to": "from", "fromShape": "toShape", "toShape": "fromShape"}
        back = {**there, **{name: there[of] for name, of in mirror.items()}, "ordinal": 1, "fromName": "Old"}
        names = page.locator(".fp-step .fp-arm .fp-chord").all_inner_texts()[1:3]
        back["toName"] = names[0]
        keep(page, [there, back] if early else [{**back, "fromOrdinal": 2}])
        page = student.open(LESSON)
        until(page, "document.querySelectorAll('.kept-changed').length > 0")
        said = page.inner_text(f"[id='{back['to']}'] .kept-changed")
        assert said.startswith("The step that you changed from has changed since you practised it. 1 of 2 clean")
        assert f"It was Old, and is now {names[1]}." in said
        assert page.locator(".kept-changed").count() == (2 if early else 1)


def test_a_step_that_is_gone_is_not_offered_again(visit: Visiting) -> None:
    with visit() as student:
        page = student.open(LESSON)
        keep(page, [{**change(page, 1), "to": "gone", "ordinal": 99}])
        page = student.open()
        until(page, "document.querySelector('.today')?.checkVisibility()")
        page = student.open(LESSON)
        until(page, f"({STORED})[0].gone === true")
        page = student.open()
        page.wait_for_timeout(200)
        assert page.is_hidden(".today")
        page = student.open("your-progress/")
        until(page, "document.querySelector('[data-kept-steps]').innerText.includes('no longer in its lesson')")


def test_ticks_from_before_are_taken_over_and_new_ones_noted(visit: Visiting) -> None:
    with visit() as student:
        page = student.open(LESSON)
        keys = page.locator("input[data-key*='/change/']").evaluate_all("(all) => all.map((one) => one.dataset.key)")
        page.evaluate("(key) => { localStorage['fingerpost:ticks:/'] = JSON.stringify({ [key]: true }); }", keys[0])
        page = student.open(LESSON)
        until(page, f"({STORED}).length === 1")
        page.locator("input[data-key*='/change/']").nth(1).check()
        until(page, f"({STORED}).length === 2")
        kept = page.evaluate(STORED)
        assert [one["done"] for one in kept] == [True, True]
        assert kept[0]["last"] == 0
        assert kept[1]["last"] > 0
        page.locator("button:text('Clear the ticks')").first.click()
        until(page, f"({STORED}).length === 0")


def saved(page: Page, folder: Path) -> Path:
    """The file that the page gives."""
    with page.expect_download() as download:
        page.click("[data-save]")
    file = folder / download.value.suggested_filename
    download.value.save_as(file)
    return file


def test_progress_goes_to_another_device_as_a_file(visit: Visiting, tmp_path: Path) -> None:
    with visit() as student:
        tried(student, True, False)
        page = student.open("your-progress/")
        until(page, "document.querySelector('[data-kept-steps]').innerText.includes('Am to C')")
        file = saved(page, tmp_path)
        assert file.name.startswith("between-readings-progress-")
        found = json.loads(file.read_text())
        assert (found["format"], found["version"], found["course"]) == ("fingerpost-progress", 1, "Between Readings")
    with visit() as student:
        page = student.open("your-progress/")
        until(page, "document.querySelector('[data-no-steps]').checkVisibility()")
        assert page.is_disabled("[data-save]")
        page.wait_for_selector("[data-your-progress]")
        page.set_input_files("[data-take]", file)
        until(page, "document.querySelector('main [data-says]').textContent.startsWith('Taken over: 1 change')")
        assert "Taken over: 1 change. What" in page.inner_text("main [data-says]")
        assert "1 of 2 clean" in page.inner_text("[data-kept-steps]")
        page = student.open(LESSON)
        until(page, "document.querySelectorAll('.kept-share').length === 1")


NO_FILES = {
    "{": "can’t be read",
    "[]": "is not a file of progress",
    '{"format": "fingerpost-progress", "version": 9}': "a newer version",
    '{"format": "fingerpost-progress", "version": 1, "course": "Fog Bank"}': "from another course, Fog Bank",
    '{"format": "fingerpost-progress", "version": 1, "course": "Between Readings", "steps": [1]}': "can’t be read",
}


def test_a_file_that_is_none_changes_nothing_and_says_why(visit: Visiting) -> None:
    with visit() as student:
        page = student.open(LESSON)
        keep(page, [change(page, 1)])
        page = student.open("your-progress/")
        page.wait_for_selector("[data-your-progress]")  # shown once its script is there
        before = page.evaluate("JSON.stringify(localStorage)")
        for at, (text, said) in enumerate(NO_FILES.items()):
            file = {"name": f"mine-{at}.json", "mimeType": "application/json", "buffer": text.encode()}
            page.set_input_files("[data-take]", file)  # type: ignore[arg-type]
            says = "main section:has([data-take]) [data-says]"
            until(page, f"(name) => document.querySelector('{says}').textContent.includes(name)", file["name"])
            words = page.inner_text(says)
            assert said in words
            assert words.endswith("Nothing was changed.")
            assert page.evaluate("JSON.stringify(localStorage)") == before


def test_everything_is_forgotten_in_one_place_after_one_more_question(visit: Visiting) -> None:
    with visit() as student:
        tried(student, True)
        page = student.open("your-progress/")
        page.evaluate("localStorage['fingerpost:steps:/other/'] = '1'; localStorage['fingerpost:view'] = '{}'")
        page.click("[data-forget]")
        assert page.evaluate("document.activeElement.textContent") == "No, leave it"
        page.click("[data-no]")
        assert page.evaluate("document.activeElement.textContent") == "Forget everything"
        assert len(page.evaluate(STORED)) == 1
        page.click("[data-forget]")
        page.click("[data-yes]")
        assert page.evaluate("Object.keys(localStorage)") == ["fingerpost:steps:/other/"]
        assert page.locator("[data-no-steps]").is_visible()
        assert "Everything is forgotten." in page.inner_text("main")


def test_that_all_is_forgotten_is_said_where_it_was_asked_for_and_holds(visit: Visiting, tmp_path: Path) -> None:
    with visit() as student:
        page = tried(student, True)
        page.evaluate("sessionStorage['fingerpost:worked'] = '{}'; sessionStorage['other'] = '1'")
        page = student.open("your-progress/")
        file = saved(page, tmp_path)
        page.set_input_files("[data-take]", file)
        until(page, "document.querySelector('main [data-says]').textContent.startsWith('Taken over')")
        page.click("[data-forget]")
        page.click("[data-yes]")
        assert page.inner_text("section:has([data-forget]) [role=status]") == "Everything is forgotten."
        said, control = (page.locator(what).bounding_box() for what in ("[data-forgotten]", "[data-forget]"))
        assert said
        assert control
        assert 0 < said["y"] - control["y"] < 120
        assert said["y"] + said["height"] < page.viewport_size["height"]  # type: ignore[index]
        assert page.text_content("main [data-says]") == "", "nothing is here any more"
        assert page.evaluate("Object.keys(sessionStorage)") == ["other"]
        page.click("[data-forget]")
        assert page.text_content("[data-forgotten]") == ""


@pytest.mark.parametrize("full", [True, False])
def test_where_nothing_can_be_kept_the_page_works_and_says_so_once(visit: Visiting, full: bool) -> None:
    refuse = "throw new DOMException('full', 'QuotaExceededError')"
    full_store = f"Storage.prototype.setItem = () => {{ {refuse}; }}"
    no_store = f"Object.defineProperty(window, 'localStorage', {{ get() {{ {refuse}; }} }})"
    with visit() as student:
        student.page.add_init_script(full_store if full else no_store)
        page = tried(student, True)
        assert "can’t be kept in this browser" in page.inner_text(f"{VIEW} [data-notice]")
        press(page, "ArrowRight")
        page = student.open(LESSON)
        page.locator(".fp-practice input").nth(1).check()
        until(page, "document.querySelector('.notices').textContent.includes('This browser keeps nothing')")
        assert page.locator(".fp-practice input").nth(1).is_checked()
        for path in ("", "your-progress/"):
            student.open(path)
            assert page.is_hidden(".notices")


def test_a_store_that_holds_something_else_is_no_hindrance(visit: Visiting) -> None:
    read = "async () => (await import('/js/kept/shelf.js')).records().length"
    with visit() as student:
        page = student.open(LESSON)
        for stored in ("{", "[1, 2]", '{"version": 1, "steps": [{"page": 4}, null]}', '{"version": 7}', '"x"'):
            page.evaluate("(text) => { localStorage['fingerpost:steps:/'] = text; }", stored)
            assert page.evaluate(read) == 0, stored
        for path in ("", "your-progress/", LESSON):
            student.open(path)
        page.locator("input[data-key*='/change/']").first.check()
        until(page, f"({STORED}).length === 1")


def test_one_who_leaves_in_the_practice_view_carries_on_there(visit: Visiting) -> None:
    with visit() as student:
        page = practise(student, LESSON, block=1)
        press(page, "ArrowRight", "ArrowRight")
        left = name(page)
        page = student.open()
        assert "The long dark" in page.inner_text("main .carry-on")
        page.click("main .carry-on")
        assert name(shown(page)) == left


def asked(page: Page) -> tuple[str, str, str]:
    """Where one has come to in practice, the chord that is shown, and what is said of it."""
    return text(page, "where"), name(page), text(page, "notice")


def test_today_leads_to_what_an_edited_step_is_now(visit: Visiting) -> None:
    with visit() as student:
        page = student.open(LESSON)
        there = change(page, 3)
        keep(page, [{**there, "to": "dark--was", "toShape": "x02010/--2-1-", "toName": "Old"}])
        page = student.open()
        until(page, "document.querySelector('.today')?.checkVisibility()")
        page.click(".today li a")
        shown(page)
        where, chord, notice = asked(page)
        assert where.startswith("Back and forth")
        assert (chord, notice) == (there["fromName"], "")
        press(page, "ArrowRight")
        assert name(page) == there["toName"]
        page.click(f"{VIEW} [data-clean]")
        assert {(one["from"], one["to"], one["tries"]) for one in page.evaluate(STORED)} == {
            (there["from"], "dark--was", 2),
            (there["from"], there["to"], 1),
        }


def test_today_leads_to_what_a_step_is_called_now(visit: Visiting) -> None:
    """Its id is another, since the step before it was edited; its shape is the same."""
    with visit() as student:
        page = student.open(LESSON)
        there = change(page, 3)
        keep(page, [{**there, "to": "dark--was", "fromOrdinal": 2}])
        page = student.open()
        until(page, "document.querySelector('.today')?.checkVisibility()")
        page.click(".today li a")
        shown(page)
        assert asked(page)[0].startswith("Back and forth")
        until(page, f"({STORED})[0].to !== 'dark--was'")
        (kept,) = page.evaluate(STORED)
        assert (kept["to"], kept["tries"]) == (there["to"], 2)


@pytest.mark.parametrize("gone", [0, 1])
def test_an_address_with_a_step_that_is_gone_opens_the_other_alone_and_says_so(visit: Visiting, gone: int) -> None:
    with visit() as student:
        page = student.open(LESSON)
        there = change(page, 3)
        ids = [there["from"], there["to"]]
        ids[gone] = "dark--bogus"
        student.open()
        page = shown(student.open(f"{LESSON}#practise={ids[0]},{ids[1]}"))
        where, chord, notice = asked(page)
        assert where.startswith(f"Step {[4, 3][gone]} of")
        assert chord == [there["toName"], there["fromName"]][gone]
        assert notice == "A step that was asked for is no longer in this lesson, so this one is shown alone."


def test_what_else_the_browser_cannot_do_does_not_take_the_place_of_what_was_said(visit: Visiting) -> None:
    with visit() as student:
        student.page.add_init_script("Object.defineProperty(navigator, 'wakeLock', { value: undefined })")
        page = student.open(LESSON)
        there = change(page, 3)
        student.open()
        page = shown(student.open(f"{LESSON}#practise=dark--bogus,{there['to']}"))
        until(
            page, f"document.querySelector('{VIEW} [data-notice]').textContent.includes('can’t keep this screen awake')"
        )
        assert "A step that was asked for is no longer in this lesson" in asked(page)[2]
        press(page, "ArrowRight")
        assert asked(page)[2] == ""


def test_carrying_on_leads_to_what_the_edited_steps_of_a_change_are_now(visit: Visiting) -> None:
    rename = """(id) => {
      for (const name of Object.keys(localStorage)) localStorage[name] = localStorage[name].replaceAll(id, 'dark--was');
    }"""
    with visit() as student:
        page = practise(student, LESSON)
        press(page, "ArrowRight", "ArrowRight")
        page.click(f"{VIEW} [data-pair]")
        left = asked(followed(page))
        assert left[0].startswith("Back and forth")
        page = student.open()
        for end in ("step", "other"):
            kept = page.evaluate("JSON.parse(localStorage['fingerpost:place:/'])")
            page.evaluate(rename, kept["step"] if end == "step" else kept["other"]["id"])
            page = student.open()
            page.click("main .carry-on")
            assert asked(shown(page)) == left
            page = student.open()


def choose_notes(page: Page, style: str) -> None:
    if not page.evaluate("document.querySelector('details.view').open"):
        page.click("details.view > summary")
    page.check(f"input[name=notes][value='{style}']", force=True)


def test_what_is_kept_is_named_as_the_reader_chooses_now_not_as_then(visit: Visiting) -> None:
    """B7 of the course is H7 in German, where B would be B flat."""
    places = (".today li a", "main .carry-on [data-where]", "[data-kept-steps] li a")
    says = "([place, name]) => document.querySelector(place)?.textContent.includes(name)"
    with visit() as student:
        page = student.open()
        choose_notes(page, "german")
        page = practise(student, "near-enough-for-the-log/")
        press(page, "ArrowRight", "ArrowRight")
        until(page, f"document.querySelector('{VIEW} [data-chord]').textContent.startsWith('H7')")
        page.click(f"{VIEW} [data-clean]")
        page.evaluate(EARLIER, 1)
        (kept,) = page.evaluate(STORED)
        assert (kept["toName"], kept["toNamed"]) == ("B7", "B7")
        for path, parts in (("", places[:2]), ("your-progress/", places[2:])):
            page = student.open(path)
            for place in parts:
                until(page, says, [place, "H7"])
        choose_notes(page, "english")
        until(page, says, [places[2], "B7"])
        page = student.open()
        for place in places[:2]:
            until(page, says, [place, "B7"])
        choose_notes(page, "solfege")
        for place in places[:2]:
            until(page, says, [place, "Si7"])


def test_a_record_of_an_earlier_version_takes_its_names_anew_when_its_lesson_is_opened(visit: Visiting) -> None:
    with visit() as student:
        page = student.open(LESSON)
        there = change(page, 3)
        keep(page, [{**there, "toName": "as it was"}])
        page = student.open()
        until(page, "document.querySelector('.today li a')?.textContent.endsWith(' to as it was')")
        page = student.open(LESSON)
        until(page, f"({STORED})[0].toName !== 'as it was'")
        (kept,) = page.evaluate(STORED)
        assert (kept["toName"], kept["toNamed"], kept["fromOrdinal"]) == (there["toName"], there["toName"], 2)
        assert (kept["clean"], kept["tries"], kept["day"]) == (there["clean"], there["tries"], there["day"])


LAST_SHOWN = """document.addEventListener('visibilitychange', () => {
  const said = ['[data-where]', '[data-chord] > :first-child'].map((part) => document.querySelector(`dialog ${part}`));
  if (said[0]) sessionStorage.leftAt = said.map((part) => part.textContent).join('; ');
}, { capture: true, once: true })"""


@pytest.mark.parametrize("hurts", [False, True])
def test_one_who_leaves_while_time_is_kept_carries_on_where_they_had_come_to(visit: Visiting, hurts: bool) -> None:
    with visit() as student:
        student.page.add_init_script(
            "localStorage['fingerpost:practice'] = JSON.stringify({ tempo: 208, beats: 1, countIn: 0 })"
        )
        student.page.add_init_script(LAST_SHOWN)
        page = practise(student, "the-gate/")
        page.click(f"{VIEW} [data-run]")
        until(page, f"Number(document.querySelector('{VIEW} [data-where]').textContent.split(' ')[1]) >= 4")
        if hurts:
            page.click(f"{VIEW} [data-hurts]")
            page.wait_for_url("**/staying-unhurt/")
        page = student.open()
        left = page.evaluate("sessionStorage.leftAt")
        page.click("main .carry-on")
        shown(page)
        assert f"{text(page, 'where')}; {name(page)}" == left
        assert int(left.split()[1]) >= 4


@pytest.mark.parametrize("size", [(320, 700), DESK])
def test_the_page_of_progress_is_found_and_fits(visit: Visiting, size: tuple[int, int]) -> None:
    with visit(size=size) as student:
        page = student.open(LESSON)
        page.click("footer a:text('Your progress')")
        page.wait_for_url("**/your-progress/")
        assert page.inner_text("h1") == "Your progress"
        assert page.evaluate("document.documentElement.scrollWidth") <= size[0]


def test_without_scripts_the_page_of_progress_says_what_it_needs(visit: Visiting) -> None:
    with visit(java_script_enabled=False) as student:
        student.page.goto(f"{student.address}your-progress/")
        assert "needs scripts" in student.page.inner_text("main")
        assert student.page.locator("main button:visible").count() == 0
        student.page.goto(student.address)
        assert student.page.locator(".today:visible, .whole:visible, .notices:visible").count() == 0
