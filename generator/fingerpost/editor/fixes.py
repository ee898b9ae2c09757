"""Quick fixes: each finding's own edits, and all of a page that can be made together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from lsprotocol import types

from fingerpost.diagnostics import Diagnostic, Edit
from fingerpost.editor.as_lsp import diagnostic, findings_of, range_of
from fingerpost.editor.desk import Place
from fingerpost.workspace.edits import chosen

LONGEST_TITLE = 60


def actions(place: Place, wanted: types.Range, only: Sequence[str] | None, versioned: bool) -> list[types.CodeAction]:
    """The fixes of the findings in a stretch, then all of the page; only: the kinds that are asked for."""
    safe = [finding for finding in findings_of(place) if _is_ours(finding, place)]
    found = [*_here(place, safe, wanted, versioned), *_together(place, safe, versioned)]
    return [action for action in found if only is None or any(_is_of(action, kind) for kind in only)]


def _is_ours(finding: Diagnostic, place: Place) -> bool:
    return bool(finding.edits) and all(edit.span.file == place.file for edit in finding.edits)


def _here(place: Place, safe: list[Diagnostic], wanted: types.Range, versioned: bool) -> Iterator[types.CodeAction]:
    for finding in safe:
        said = diagnostic(finding, place.text.lines)
        if _meet(said.range, wanted):
            yield types.CodeAction(
                title=_title(finding),
                kind=types.CodeActionKind.QuickFix,
                diagnostics=[said],
                is_preferred=True,
                edit=_edit(place, finding.edits, versioned),
            )


def _together(place: Place, safe: list[Diagnostic], versioned: bool) -> Iterator[types.CodeAction]:
    together = chosen(safe)
    if not together:
        return
    edit = _edit(place, sorted({edit for finding in together for edit in finding.edits}), versioned)
    count = len(together)
    title = "Make the one safe fix of this page" if count == 1 else f"Make all {count} safe fixes of this page"
    for kind in (types.CodeActionKind.QuickFix, types.CodeActionKind.SourceFixAll):
        if count > 1 or kind == types.CodeActionKind.SourceFixAll:
            yield types.CodeAction(title=title, kind=kind, edit=edit)


def _title(finding: Diagnostic) -> str:
    fix = finding.fix or finding.expected
    short = fix if len(fix) <= LONGEST_TITLE else fix[: LONGEST_TITLE - 1] + "…"
    return f"Write {short}" if len(finding.edits) == 1 and finding.edits[0].text == finding.fix else f"Fix: {short}"


def _edit(place: Place, edits: Sequence[Edit], versioned: bool) -> types.WorkspaceEdit:
    lines, text = place.text.lines, place.text
    made = [types.TextEdit(range_of(edit.span, lines), edit.text.replace("\n", lines.newline)) for edit in edits]
    if not versioned:
        return types.WorkspaceEdit(changes={text.uri: made})
    named = types.OptionalVersionedTextDocumentIdentifier(text.uri, text.version)
    return types.WorkspaceEdit(document_changes=[types.TextDocumentEdit(named, made)])


def _meet(one: types.Range, other: types.Range) -> bool:
    return _pair(one.start) <= _pair(other.end) and _pair(other.start) <= _pair(one.end)


def _pair(position: types.Position) -> tuple[int, int]:
    return position.line, position.character


def _is_of(action: types.CodeAction, kind: str) -> bool:
    own = getattr(action.kind, "value", action.kind)
    return f"{own}.".startswith(f"{kind}." if kind else "")
