"""What a teacher may hand in by mistake or in malice: clear findings or a right page, in `check` and on the page."""

from __future__ import annotations

import json
import logging
import time
from dataclasses import dataclass

import pytest
from fingerpost.cli.main import main
from fingerpost.workspace.page_text import decode
from markdown import markdown

from ..site.markup import read

GOOD = "```moves\nid: good\nstart: 2 D2, 3 G2, 1 B1, strum A-e = Am\nsteps:\n- 3 to A3 = C\n```\n"
SCRIPT = "<script>alert(1)</script>"


def block(body: str) -> str:
    return f"```moves\n{body}```\n"


def long(steps: str, start: str = "start: 2 D2, 3 G2, 1 B1, strum A-e\n", ident: str = "bad") -> str:
    return block(f"id: {ident}\n{start}steps:\n{steps}")


@dataclass(frozen=True)
class Case:
    """A text in the middle of a page, and findings that it must have."""

    text: str
    codes: frozenset[str]


def case(text: str, *codes: str) -> Case:
    return Case(text, frozenset(codes))


CASES = {
    "empty block": case("```moves\n```\n", "block-empty"),
    "blank block": case("```moves\n\n   \n```\n", "block-empty"),
    "only a comment": case("```moves\n# nothing yet\n```\n", "block-empty"),
    "a megabyte": case(long("- move: 3 to A3\n  say: " + "la " * 400_000 + "\n"), "block-too-large"),
    "a list": case(block("- a\n- b\n")),
    "a bare text": case(block("just words\n"), "block-unreadable"),
    "a tab": case(long("-\t3 to A3 = C\n")),
    "tabs in front": case(long("\t- 3 to A3 = C\n")),
    "anchor": case(long("- &a 3 to A3 = C\n"), "anchor-or-tag"),
    "alias": case(long("- *a\n"), "anchor-or-tag"),
    "tag": case(long("- !!python/object/apply:os.system [x]\n"), "anchor-or-tag"),
    "merge": case(block("<<: *a\nid: x\nstart: open\nsteps:\n- hold\n"), "anchor-or-tag"),
    "duplicate key": case(block("id: a\nid: b\nstart: open\nsteps:\n- hold\n"), "duplicate-key"),
    "unknown key": case(block("id: a\nstrat: open\nsteps:\n- hold\n"), "unknown-key"),
    "unclosed": case("```moves\nid: x\nstart: open\nsteps:\n- hold\n\n", "fence-unclosed"),
    "fret 99": case(long("- 3 to A99\n"), "unknown-fret"),
    "string Z": case(long("- 3 to Z3\n"), "unknown-string"),
    "finger 7": case(long("- 7 to A3\n"), "unknown-finger"),
    "finger 7 off": case(long("- 7 off\n"), "unknown-finger"),
    "no chord": case(long("- 3 to A3 = Hello\n"), "symbol-unreadable"),
    "wrong chord": case(long("- 3 to A3 = F#m7\n"), "name-is-wrong"),
    "not down": case(long("- 4 off\n"), "finger-not-down"),
    "two fingers": case(long("- 3 to A3 and 4 to e3\n"), "too-many-fingers"),
    "nonsense": case(long("- &%$§!\n")),
    "deep": case(block("id: a\nstart: open\nsteps:\n" + "".join(" " * n + "- \n" for n in range(60)))),
    "a million brackets": case(block("id: " + "[" * 50_000 + "\nstart: open\nsteps:\n- hold\n")),
    "controls": case(long("- move: 3 to A3 = C\n  say: a\x00b\x07c\x1b[31md\n")),
    "odd letters": case(long("- move: 3 to A3 = C\n  say: \u202e\u200b\ufeff\U0001f3b8 \ufffe\n")),
}
EDGES = (
    *(": a", "a: b", "# a", "a # b", '"a"', "'a", '"', "'", "{a", "[a", "- a", "> a", "| a", "%a", "@a", "`a`", "*a"),
    *("&a", "!a", "yes", "1:20", "~", "null", "0x1F", "a\\nb", "<b>a</b>", "&lt;", "a -- b"),
)


def page(text: str) -> str:
    return f"# A page\n\nWords before.\n\n{text}\nWords between.\n\n{GOOD}\nWords after.\n"


def on_page(text: str, caplog) -> str:
    with caplog.at_level(logging.CRITICAL, "fingerpost"):
        return markdown(page(text), extensions=["fingerpost", "fenced_code"])


def checked(folder, capsys, data: bytes) -> tuple[int, list[dict]]:
    path = folder / "page.md"
    path.write_bytes(data)
    capsys.readouterr()
    code = main(["check", "--format", "json", str(path)])
    out, err = capsys.readouterr()
    assert err == ""
    return code, [json.loads(line) for line in out.splitlines()]


@pytest.mark.parametrize("bad", CASES.values(), ids=CASES.keys())
def test_check_finds_it_and_the_rest_is_right(tmp_path, capsys, bad):
    code, findings = checked(tmp_path, capsys, page(bad.text).encode())
    found = {finding["code"] for finding in findings}
    assert bad.codes <= found
    assert code == (1 if any(finding["severity"] == "error" for finding in findings) else 0)
    for finding in findings:
        assert finding["message"]
        assert 1 <= finding["line"] <= page(bad.text).count("\n") + 1
        assert (finding["line"], finding["column"]) <= (finding["end_line"], finding["end_column"])


@pytest.mark.parametrize("bad", CASES.values(), ids=CASES.keys())
def test_the_page_loses_no_paragraph(caplog, bad):
    made = read(on_page(bad.text, caplog))
    assert made.faults == []
    words = [p.text for p in made.all("p") if not p.around]
    assert words == ["Words before.", "Words between.", "Words after."]
    assert any(section.attributes.get("id") == "good" for section in made.all("section"))


@pytest.mark.parametrize(
    "name", [name for name, bad in CASES.items() if "block-" in str(bad.codes) or "unknown" in name]
)
def test_the_page_shows_a_notice_where_the_block_is_broken(caplog, name):
    made = read(on_page(CASES[name].text, caplog))
    assert len(made.all("section", "fp-broken")) == 1


@pytest.mark.parametrize("edge", EDGES)
@pytest.mark.parametrize("field", ["title", "say"])
def test_any_text_is_taken_as_it_is_written(tmp_path, capsys, caplog, edge, field):
    title = edge if field == "title" else "T"
    say = edge if field == "say" else "S"
    start = "start: 2 D2, 3 G2, 1 B1, strum A-e = Am"
    text = block(f"id: edge\ntitle: {title}\n{start}\nsteps:\n- move: 3 to A3 = C\n  say: {say}\n")
    code, findings = checked(tmp_path, capsys, page(text).encode())
    made = read(on_page(text, caplog))
    shown = made.all("h2", "fp-title")[0].text if field == "title" else made.all("div", "fp-say")[0].text
    assert (code, findings) == (0, [])
    assert shown in (edge, edge.strip("\"'"), edge.replace("\\n", "\n"))


FIELDS = {
    "id": "id: {x}\nstart: open\nsteps:\n- hold\n",
    "title": "id: x\ntitle: {x}\nstart: open\nsteps:\n- hold\n",
    "start": "id: x\nstart: {x}\nsteps:\n- hold\n",
    "start name": "id: x\nstart: open = {x}\nsteps:\n- hold\n",
    "as taught": "id: x\nstart: as taught {x}\nsteps:\n- hold\n",
    "after": "id: x\nstart: after {x}\nsteps:\n- hold\n",
    "strum": "id: x\nstart: open\nstrum: {x}\nsteps:\n- hold\n",
    "key": "id: x\nstart: open\nkey: {x}\nsteps:\n- hold\n",
    "tuning": "id: x\nstart: open\ntuning: {x}\nsteps:\n- hold\n",
    "capo": "id: x\nstart: open\ncapo: {x}\nsteps:\n- hold\n",
    "teaches": "id: x\nstart: open\nteaches: [{x}]\nsteps:\n- hold\n",
    "fingers": "id: x\nstart: open\nfingers_per_step: {x}\nsteps:\n- hold\n",
    "move": "id: x\nstart: open\nsteps:\n- {x}\n",
    "name": "id: x\nstart: open\nsteps:\n- 1 to B1 = {x}\n",
    "taught as": "id: x\nstart: open\nsteps:\n- 1 to B1 ~ {x}\n",
    "cue": "id: x\nstart: open\nsteps:\n- hold @{x}\n",
    "step id": "id: x\nstart: open\nsteps:\n- move: hold\n  id: {x}\n",
    "say": "id: x\nstart: open\nsteps:\n- move: hold\n  say: {x}\n",
    "beats": "id: x\nstart: open\nsteps:\n- move: hold\n  beats: {x}\n",
    "pattern": "id: x\nstart: open\nsteps:\n- move: hold\n  pattern: {x}\n",
    "or": "id: x\nstart: open\nsteps:\n- move: hold\n  or: {x}\n",
    "image": "id: x\nstart: open\nsteps:\n- move: hold\n  image: {x} {x}\n",
    "image text": "id: x\nstart: open\nsteps:\n- move: hold\n  image: a.png {x}\n",
    "key name": "id: x\nstart: open\n{x}: x\nsteps:\n- hold\n",
    "mention": None,
}
HOSTILE = (
    *(SCRIPT, '"><img src=x onerror=alert(1)>', "' onload='alert(1)", "javascript:alert(1)", "]]><b>"),
    *("&#60;script&#62;", "</code></pre><script>alert(1)</script>"),
)


@pytest.mark.parametrize("hostile", HOSTILE)
@pytest.mark.parametrize("field", FIELDS)
def test_no_field_lets_markup_through(caplog, field, hostile):
    form = FIELDS[field]
    text = f"See `chord: {hostile}` and `step: {hostile} C`.\n" if form is None else block(form.format(x=hostile))
    html = on_page(text, caplog)
    made = read(html)
    names = {element.name for element in made.elements}
    attributes = {key for element in made.elements for key in element.attributes}
    assert "script" not in names
    assert made.faults == []
    assert not {key for key in attributes if key.startswith("on") or key == "style"}
    assert not any((e.attributes.get("href") or "").lower().startswith("javascript:") for e in made.elements)
    assert not any((e.attributes.get("src") or "") == "x" for e in made.elements)
    assert "<script" not in html


def test_ten_thousand_steps_are_read_or_refused_in_seconds(tmp_path, capsys):
    steps = "".join("- 3 to A3 = C\n- 3 to G2 = Am\n" for _ in range(5_000))
    began = time.monotonic()
    code, findings = checked(tmp_path, capsys, page(long(steps)).encode())
    assert code in (0, 1)
    assert {finding["code"] for finding in findings} <= {"block-too-large"}
    assert time.monotonic() - began < 120


BYTES = {
    "byte-order mark": (b"\xef\xbb\xbf" + page("").encode(), set()),
    "CRLF": (page("").replace("\n", "\r\n").encode(), set()),
    "CR": (page("").replace("\n", "\r").encode(), set()),
    "both": (b"\xef\xbb\xbf" + page("").replace("\n", "\r\n").encode(), set()),
    "invalid UTF-8": (page("caf\u00e9 au lait").encode("latin-1"), {"invalid-utf8"}),
    "invalid UTF-8 in a block": (
        page(long("- move: 3 to A3 = C\n  say: caf\u00e9\n")).encode("latin-1"),
        {"invalid-utf8"},
    ),
    "UTF-16": (page("").encode("utf-16"), {"invalid-utf8"}),
    "zeros": (page("").encode() + b"\x00" * 10, set()),
    "nothing": (b"", set()),
}


@pytest.mark.parametrize(("data", "codes"), BYTES.values(), ids=BYTES.keys())
def test_bytes_of_any_kind(tmp_path, capsys, caplog, data, codes):
    code, findings = checked(tmp_path, capsys, data)
    assert {finding["code"] for finding in findings} == codes
    assert code == (1 if codes else 0)
    text = decode("page.md", data)[0].text
    with caplog.at_level(logging.CRITICAL, "fingerpost"):
        made = read(markdown(text, extensions=["fingerpost", "fenced_code"]))
    assert made.faults == []
    if data and b"\xff\xfe" not in data[:2]:
        assert [p.text for p in made.all("p") if not p.around][-1].strip("\x00\n") == "Words after."
        assert any(section.attributes.get("id") == "good" for section in made.all("section"))


PICTURE = b"\x89PNG\r\n\x1a\n\x00\x00\xff\xd8" + bytes(range(256))


def test_a_page_that_is_no_text_is_told_once_and_nothing_is_written(tmp_path, capsys, monkeypatch):
    main(["new", str(tmp_path / "mine")])
    pages = tmp_path / "mine" / "course"
    (pages / "photo.md").write_bytes(PICTURE)
    typed = (pages / "index.md").read_text() + "\n- One\n\n  ```moves\n  id: a\n  steps:\n  - hold\n  ```\n"
    (pages / "index.md").write_text(typed)
    monkeypatch.chdir(tmp_path / "mine")
    capsys.readouterr()
    assert main(["check", "--fix", "--format", "json"]) == 2
    found = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    assert [one["code"] for one in found if one["file"] == "course/photo.md"] == ["invalid-utf8"]
    assert (pages / "index.md").read_text() == typed
    assert main(["check", "course/index.md"]) == 1
    assert main(["check", "course/photo.md"]) == 2


def test_sources_that_are_gone_are_said_with_what_to_do(tmp_path, capsys, monkeypatch):
    main(["new", str(tmp_path / "mine")])
    (tmp_path / "mine" / "course").rename(tmp_path / "mine" / "lessons")
    monkeypatch.chdir(tmp_path / "mine")
    capsys.readouterr()
    assert main(["check"]) == 2
    assert "set docs_dir to the one that holds the pages" in capsys.readouterr().out
