"""The language server as an editor meets it: a process that speaks over stdio with pygls' own client."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from lsprotocol import types

from .client import COMMAND, Editor, Talk, talks
from .client import talk as talk_anew

pytestmark = pytest.mark.xdist_group("editor")
SETTINGS = "site_name: Gauge\ndocs_dir: pages\nnav: [first.md, second.md]\nplugins: [fingerpost]\n"
FIRST = """\
# The first reading

```moves
id: gauge
start: x32010/-32-1- = C
teaches: [C, Cmaj7]
steps:
- 1 off = Cmaj7
- 1 to B1 = C
```

The hand still holds `now: C`.
"""
SECOND = """\
# The second reading

See `step: gauge Cmaj7` and `chord: C`.

```moves
id: rain
start: after gauge
steps:
- 1 off = Cmaj7
- move: 1 to B1
  name: C
```
"""


@pytest.fixture(scope="module")
def talk() -> Iterator[Talk]:
    """One server for all conversations that don't care how they begin."""
    with talks() as talk:
        yield talk


@pytest.fixture
def course(tmp_path: Path) -> Path:
    (tmp_path / "pages").mkdir()
    (tmp_path / "mkdocs.yml").write_text(SETTINGS, "utf-8")
    (tmp_path / "pages" / "first.md").write_text(FIRST, "utf-8")
    (tmp_path / "pages" / "second.md").write_text(SECOND, "utf-8")
    return tmp_path


def test_findings_follow_what_is_typed_and_reach_other_open_pages(course: Path, talk: Talk) -> None:
    async def conversation(editor: Editor) -> None:
        first, second = editor.open(course / "pages/first.md"), editor.open(course / "pages/second.md")
        assert await editor.codes(first) == []
        assert await editor.codes(second) == []
        editor.write(first, FIRST.replace("1 off = Cmaj7", "1 off = C7"))
        (wrong,) = await editor.findings(first)
        assert (wrong.code, wrong.source, wrong.severity) == (
            "name-is-wrong",
            "fingerpost",
            types.DiagnosticSeverity.Error,
        )
        assert wrong.range == types.Range(types.Position(7, 10), types.Position(7, 12))
        assert wrong.message.startswith("This is not `C7`: what sounds is C E G B")
        assert "\nexpected: Cmaj7" in wrong.message
        assert "\nfix: Cmaj7" in wrong.message
        # An id that is renamed in one page is missing in the other, though that was not touched.
        editor.write(first, FIRST.replace("id: gauge", "id: gouge"))
        await editor.until(lambda: len(editor.published[second].diagnostics) >= 2)
        codes = {str(found.code) for found in editor.published[second].diagnostics}
        assert {"unresolved-start", "unresolved-mention"} <= codes
        # Closed without saving: what is on the disk counts again.
        editor.close(first)
        await editor.until(lambda: not editor.published[second].diagnostics)
        assert not editor.published[first].diagnostics

    talk(conversation)


def test_many_keystrokes_at_once_are_answered_for_the_last_and_never_go_back(course: Path, talk: Talk) -> None:
    async def conversation(editor: Editor) -> None:
        uri = editor.open(course / "pages/first.md")
        place = editor.after(uri, "1 off = C")
        for char in "abcdefgh":
            change = types.TextDocumentContentChangePartial(types.Range(place, place), char)
            editor.send(uri, change)
        (found, *_) = await editor.findings(uri)
        assert "hgfedcbamaj7" in found.message
        seen = [one.version for one in editor.all_published if one.uri == uri and one.version is not None]
        assert seen == sorted(set(seen))

    talk(conversation)


def test_hover_tells_the_name_the_hand_and_the_difficulty(course: Path, talk: Talk) -> None:
    async def conversation(editor: Editor) -> None:
        first, second = editor.open(course / "pages/first.md"), editor.open(course / "pages/second.md")
        said = await editor.hovered(first, "- 1 off")
        for part in (
            "**Cmaj7**",
            "note     – C E G B E",
            "Fingers 2 and 3 stay.",
            "Shape: x32000/-32---",
            "Difficulty",
        ):
            assert part in said
        assert "**C**" in await editor.hovered(first, "start: x32")
        assert (await editor.hovered(first, "teach")).startswith("**teaches**")
        mention = await editor.hovered(second, "`step: gauge")
        assert "**Cmaj7**" in mention
        assert "first.md" in mention
        editor.write(first, FIRST.replace("= Cmaj7", "= C7"))
        said = await editor.hovered(first, "1 off = C")
        assert "name-is-wrong" in said
        assert await editor.hovered(first, "The first") == ""

    talk(conversation)


OFFERS = [
    ("- ", ["1", "2", "3", "4"], "down, on B1"),
    ("- 1 ", ["to", "off"], ""),
    ("- 4 ", ["to", "for"], ""),
    ("- 4 for ", ["1", "2", "3"], ""),
    ("- 4 to ", ["B3", "e3", "D3"], ""),
    ("- 4 to B", ["B3", "B4"], ""),
    ("- 4 to 2", ["2:3", "4:3"], ""),
    ("- mute ", ["E", "A", "D", "G", "B", "e"], "string 6, open E2"),
    ("- mute ", ["E"], ""),
    ("- mute D by ", ["1", "2", "3"], ""),
    ("- strum A-", ["E", "e"], ""),
    ("- 1 to B1-", ["e1"], "a bar over 2 strings"),
    ("- 1 off = ", ["Cmaj7"], ""),
    ("- 4 to B3 = Ca", ["Cadd9"], ""),
    ("- 1 off, 4 to ", ["e3"], ""),
    ("- 1 off ", ["=", "~", "@", "passing", "silent"], ""),
    ("- move: 4 to ", ["B3"], ""),
    ("- move: 1 off\n  na", ["name:", "say:"], ""),
]


def test_completion_offers_what_the_hand_can_do(course: Path, talk: Talk) -> None:
    async def conversation(editor: Editor) -> None:
        uri = editor.open(course / "pages/first.md")
        lead = "teaches: [C, Cmaj7]\nsteps:\n"
        for typed, labels, about in OFFERS:
            editor.write(uri, FIRST.replace("- 1 off = Cmaj7", typed))
            items = await editor.offered(uri, lead + typed)
            assert set(labels) <= {item.label for item in items}, typed
            assert about in [item.detail or "" for item in items] or not about, typed
            edits = {(item.text_edit.range.start.character, item.text_edit.range.end.character) for item in items}
            ((start, end),) = edits
            last = typed.rpartition("\n")[2]
            assert end == len(last)
            assert last[start:end] == last[start:end].strip()

    talk(conversation)


def test_completion_of_starts_and_mentions(course: Path, talk: Talk) -> None:
    async def conversation(editor: Editor) -> None:
        uri = editor.open(course / "pages/second.md")
        for typed, wanted in (
            ("start: ", {"open", "previous", "after", "as taught", "1"}),
            ("start: after ", {"gauge"}),
            ("start: after gauge = ", {"C"}),
            ("start: as taught ", {"C", "Cmaj7"}),
            ("start: 3 A3, 2 ", {"D2"}),
            ("start: 3 A3, 2 D2, 1 B1 = ", {"C"}),
            ("tuning: ", {"drop D", "DADGAD"}),
        ):
            editor.write(uri, SECOND.replace("start: after gauge", typed))
            assert wanted <= {item.label for item in await editor.offered(uri, "id: rain\n" + typed)}, typed
        for typed, wanted in (
            ("`step: ", {"gauge", "rain"}),
            ("`step: gauge ", {"C", "Cmaj7"}),
            ("`chord: C", {"Cmaj7"}),
        ):
            editor.write(uri, SECOND + "\nAnd " + typed)
            assert wanted <= {item.label for item in await editor.offered(uri, "And " + typed)}, typed

    talk(conversation)


def test_words_lead_to_what_they_name(course: Path, talk: Talk) -> None:
    async def conversation(editor: Editor) -> None:
        first, second = editor.open(course / "pages/first.md"), editor.open(course / "pages/second.md")
        assert await editor.leads_to(second, "`step: gauge") == [("first.md", 8)]
        assert await editor.leads_to(second, "`chord: C") == [("first.md", 5)]
        assert await editor.leads_to(second, "start: after gau") == [("first.md", 4)]
        assert await editor.leads_to(second, "1 off = Cmaj") == [("first.md", 8)]
        editor.write(first, FIRST + "\n```moves\nid: more\nstart: previous\nsteps:\n- 1 off = Cmaj7\n```\n")
        assert await editor.leads_to(first, "start: prev") == [("first.md", 9)]
        assert await editor.leads_to(first, "The first") == []

    talk(conversation)


def test_the_outline_holds_blocks_and_steps(course: Path, talk: Talk) -> None:
    async def conversation(editor: Editor) -> list[types.DocumentSymbol]:
        uri = editor.open(course / "pages/first.md")
        asked = types.DocumentSymbolParams(types.TextDocumentIdentifier(uri))
        return list(await editor.text_document_document_symbol_async(asked) or [])

    (block,) = talk(conversation)
    assert block.name == "gauge"
    assert [step.name for step in block.children] == ["C", "Cmaj7", "C"]
    assert [step.range.start.line for step in block.children] == [4, 7, 8]


def test_safe_fixes_one_by_one_and_all_together(course: Path, talk: Talk) -> None:
    slips = FIRST.replace("teaches:", "teeches:").replace("= C\nteeches", "~ C\nteeches").replace("\n", "\r\n")

    async def conversation(editor: Editor) -> None:
        uri = editor.open(course / "pages/first.md", slips)
        assert sorted(await editor.codes(uri)) == ["name-would-hold", "unknown-key"]
        found = await editor.fixes(uri)
        assert found[0].title == "Fix: = C"
        assert found[1].title == "Write teaches"
        (every,) = await editor.fixes(uri, [types.CodeActionKind.SourceFixAll.value])
        (change,) = every.edit.document_changes
        assert change.text_document.version == 1
        for edit in sorted(change.edits, key=lambda edit: edit.range.start.line, reverse=True):
            editor.send(uri, types.TextDocumentContentChangePartial(edit.range, edit.new_text))
        assert await editor.codes(uri) == []

    talk(conversation)


@pytest.mark.parametrize("encoding", ["utf-8", None])
def test_columns_are_counted_as_agreed(course: Path, encoding: str | None) -> None:
    words = "\ufeff# A\r\n\r\n\U0001d11e\U0001f3b8\u2028é `chord: Q`\r\n"

    async def conversation(editor: Editor) -> None:
        agreed = await editor.begin(course, None if encoding is None else ["utf-7", encoding])
        assert agreed == (encoding or "utf-16")
        uri = editor.open(course / "pages/first.md", words)
        (found,) = [f for f in await editor.findings(uri) if f.range.start.line == 2]
        width = {"utf-8": 4 + 4 + 3 + 2, "utf-16": 2 + 2 + 1 + 1, "utf-32": 4}[agreed] + len(" `chord: ")
        assert found.range == types.Range(types.Position(2, width), types.Position(2, width + 1))
        change = types.TextDocumentContentChangePartial(found.range, "C/")
        editor.send(uri, change)
        assert [f.range.start.line for f in await editor.findings(uri) if f.code == "symbol-unreadable"] == [2]

    talk_anew(conversation)


def test_pages_and_courses_in_a_bad_way(course: Path, tmp_path_factory: pytest.TempPathFactory, talk: Talk) -> None:
    outside = tmp_path_factory.mktemp("elsewhere") / "lone.md"
    outside.write_text(SECOND, "utf-8")
    marker = course / "MARKER"

    async def conversation(editor: Editor) -> None:
        lone, unsaved = editor.open(outside), editor.open("untitled:Untitled-1", FIRST.replace("Cmaj7\n", "C7\n"))
        assert "unresolved-start" in await editor.codes(lone)
        assert "name-is-wrong" in await editor.codes(unsaved)
        new = editor.open(course / "pages/third.md", "`step: gauge Cmaj7`\n")  # not saved, not in nav
        assert await editor.codes(new) == []
        first = editor.open(course / "pages/first.md")
        assert await editor.codes(first) == []
        (course / "pages/first.md").unlink()
        editor.text_document_did_save(types.DidSaveTextDocumentParams(types.TextDocumentIdentifier(first)))
        assert "**Cmaj7**" in await editor.hovered(first, "- 1 off")
        hostile = f"plugins: !!python/object/apply:os.system ['touch {marker}']\nhooks: [evil.py]\nsite_name: ["
        (course / "evil.py").write_text(f"open({str(marker)!r}, 'w')\n", "utf-8")
        settings = editor.open(course / "mkdocs.yml", hostile)
        assert await editor.findings(settings)
        assert "**Cmaj7**" in await editor.hovered(first, "- 1 off")
        editor.write(settings, SETTINGS)
        assert await editor.codes(settings) == []
        assert await editor.codes(first) == []
        notes = editor.open(course / "notes.txt", FIRST)
        assert await editor.offered(notes, "- 1 ") == []

    talk(conversation)
    assert not marker.exists()


HOSTILE = (
    "\ud83d lone \udc00\x00\x1b[31m",
    "```moves\nid: <script>\nstart: \u202e\nsteps:\n- " + "1 to G2, " * 200 + "\n",
    "```moves\nid: a\nsteps:\n- move: 1 to " + "9" * 500 + "\n  name: `](javascript:x)\n```\n",
    "`chord: " + "(" * 3000 + "`",
    "---\na: &a [*a, *a]\n---\n" + "> " * 500 + "```moves\n",
    "```moves\n- \n-\n:\n=\n```\n`step: `  `now: x",
)


def test_no_text_ends_the_server(course: Path, talk: Talk) -> None:
    async def conversation(editor: Editor) -> None:
        uri = editor.open(course / "pages/first.md")
        for text in HOSTILE:
            editor.write(uri, text)
            await editor.findings(uri)
            lines = text.split("\n")
            for line in range(0, len(lines) + 2, max(1, len(lines) // 6)):
                where = types.Position(line, len(lines[line]) if line < len(lines) else 7)
                asked = types.TextDocumentIdentifier(uri), where
                said = await editor.text_document_hover_async(types.HoverParams(*asked))
                assert said is None or "<script" not in said.contents.value.replace("\\<", "")
                await editor.text_document_completion_async(types.CompletionParams(*asked))
                await editor.text_document_definition_async(types.DefinitionParams(*asked))
            await editor.fixes(uri)
            await editor.text_document_document_symbol_async(types.DocumentSymbolParams(asked[0]))
        editor.write(uri, FIRST)
        assert await editor.codes(uri) == []

    talk(conversation)


def test_an_editor_that_leaves_without_a_word_takes_the_server_along(course: Path) -> None:
    done = subprocess.run(COMMAND, input=b"", capture_output=True, timeout=60, check=False)
    assert done.returncode == 0
    assert done.stdout == b""


def test_without_pygls_a_sentence_says_what_to_install(tmp_path: Path) -> None:
    program = (
        "import importlib.util, sys\n"
        "find = importlib.util.find_spec\n"
        "importlib.util.find_spec = lambda name, *rest: None if name == 'pygls' else find(name, *rest)\n"
        "from fingerpost.cli.main import main\n"
        "sys.exit(main(['editor']))\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, input="", check=False)
    assert done.returncode == 2
    assert "Try: pip install 'fingerpost[editor]'" in done.stderr
    assert "Traceback" not in done.stderr
