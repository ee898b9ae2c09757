"""The server itself: which message of the Language Server Protocol 3.17 is answered by what."""

from __future__ import annotations

import asyncio
import os
import sys
import time
from dataclasses import dataclass, field
from typing import Any

from lsprotocol import types
from pygls.lsp.server import LanguageServer

from fingerpost import __version__
from fingerpost.editor.as_lsp import diagnostics, findings_of
from fingerpost.editor.completion import completion
from fingerpost.editor.definition import definition
from fingerpost.editor.desk import Desk, Place
from fingerpost.editor.fixes import actions
from fingerpost.editor.hover import hover
from fingerpost.editor.open_texts import path_of
from fingerpost.editor.symbols import symbols

QUICK = 0.05
LONGEST_WAIT = 0.5
"""Seconds. A check that took less than QUICK runs at every keystroke; after a slower one we wait as long as it took."""

WATCHED = ("**/*.{md,markdown,mdown,mkdn,mkd}", "**/mkdocs.{yml,yaml}", "**/*.{png,jpg,jpeg,svg,gif,webp,avif}")
TRIGGERS = [" ", ":", "=", "~", "`", ",", "-", "["]


class Server(LanguageServer):
    """The server with the author's desk."""

    def __init__(self) -> None:
        super().__init__("fingerpost", __version__)
        self.desk = Desk()
        self.reports = Reports(self)


@dataclass
class Reports:
    """Publishes findings: soon after the text has changed, and never those of a text that is no longer there."""

    server: Server
    took: float = 0.0
    waiting: asyncio.TimerHandle | None = None
    published: dict[str, tuple[int | None, list[types.Diagnostic]]] = field(default_factory=dict)

    def soon(self) -> None:
        """Publishes as soon as the last check's time allows; what was typed meanwhile is in it."""
        if self.waiting is not None:
            self.waiting.cancel()
        wait = 0.0 if self.took < QUICK else min(self.took, LONGEST_WAIT)
        self.waiting = asyncio.get_running_loop().call_later(wait, self.now)

    def now(self) -> None:
        """Checks, and publishes what is new about the open texts."""
        self.waiting = None
        begun = time.perf_counter()
        try:
            for place in self.server.desk.places():
                self._publish(place)
        except Exception as fault:  # an editor must not lose its server over one page
            self._own_fault(fault)
        self.took = time.perf_counter() - begun

    def gone(self, uri: str) -> None:
        """Takes back what was said about a text that was closed."""
        self.published.pop(uri, None)
        self.server.text_document_publish_diagnostics(types.PublishDiagnosticsParams(uri, []))

    def _publish(self, place: Place) -> None:
        text = place.text
        said = (text.version, diagnostics(findings_of(place), text.lines))
        if self.published.get(text.uri) != said:
            self.published[text.uri] = said
            self.server.text_document_publish_diagnostics(
                types.PublishDiagnosticsParams(text.uri, said[1], text.version)
            )

    def _own_fault(self, fault: Exception) -> None:
        message = f"Fingerpost made a mistake of its own here ({type(fault).__name__}: {fault})"
        self.server.window_log_message(types.LogMessageParams(types.MessageType.Error, message))


def serve() -> None:
    """Speaks with an editor over standard input and output until it says goodbye."""
    # What anything else would print must not get among the messages.
    out = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    server().start_io(sys.stdin.buffer, out)


def server() -> Server:
    """A server that answers every message it knows."""
    made = Server()
    for method, answer, options in ANSWERS:
        made.feature(method, options)(answer)
    return made


def _initialize(ls: Server, params: types.InitializeParams) -> None:
    ls.desk.texts.encoding = str(getattr(ls.workspace.position_encoding, "value", ls.workspace.position_encoding))
    folders = [folder.uri for folder in params.workspace_folders or []] or [params.root_uri or ""]
    ls.desk.folders = tuple(path for uri in folders if (path := path_of(uri)) is not None)


def _initialized(ls: Server, params: types.InitializedParams) -> None:
    watched = _capability(ls, "workspace", "did_change_watched_files", "dynamic_registration")
    if watched:
        watchers = [types.FileSystemWatcher(glob_pattern=pattern) for pattern in WATCHED]
        options = types.DidChangeWatchedFilesRegistrationOptions(watchers)
        wanted = types.Registration("files", types.WORKSPACE_DID_CHANGE_WATCHED_FILES, options)
        ls.client_register_capability(types.RegistrationParams([wanted]))


def _folders(ls: Server, params: types.DidChangeWorkspaceFoldersParams) -> None:
    ls.desk.folders = tuple(path for uri in ls.workspace.folders if (path := path_of(uri)) is not None)
    _stirred(ls, params)


def _open(ls: Server, params: types.DidOpenTextDocumentParams) -> None:
    text = params.text_document
    ls.desk.texts.put(text.uri, text.text, text.version)
    _stirred(ls, params)


def _change(ls: Server, params: types.DidChangeTextDocumentParams) -> None:
    text = params.text_document
    if ls.desk.texts.change(text.uri, params.content_changes, text.version) is not None:
        ls.desk.typed(text.uri)
        ls.reports.soon()


def _close(ls: Server, params: types.DidCloseTextDocumentParams) -> None:
    ls.desk.texts.close(params.text_document.uri)
    ls.reports.gone(params.text_document.uri)
    _stirred(ls, params)


def _stirred(ls: Server, params: Any) -> None:
    ls.desk.stirred()
    ls.reports.soon()


def _hover(ls: Server, params: types.HoverParams) -> types.Hover | None:
    place = ls.desk.place(params.text_document.uri)
    markdown = types.MarkupKind.Markdown in (_capability(ls, "text_document", "hover", "content_format") or [])
    return None if place is None else hover(place, *_from(place, params.position), markdown)


def _completion(ls: Server, params: types.CompletionParams) -> types.CompletionList:
    place = ls.desk.place(params.text_document.uri)
    return types.CompletionList(False, []) if place is None else completion(place, *_from(place, params.position))


def _definition(ls: Server, params: types.DefinitionParams) -> list[types.Location]:
    place = ls.desk.place(params.text_document.uri)
    return [] if place is None else definition(place, *_from(place, params.position), ls.desk.texts)


def _symbols(ls: Server, params: types.DocumentSymbolParams) -> list[types.DocumentSymbol]:
    place = ls.desk.place(params.text_document.uri)
    return [] if place is None else symbols(place)


def _actions(ls: Server, params: types.CodeActionParams) -> list[types.CodeAction]:
    place = ls.desk.place(params.text_document.uri)
    versioned = bool(_capability(ls, "workspace", "workspace_edit", "document_changes"))
    only = None if params.context.only is None else [getattr(kind, "value", kind) for kind in params.context.only]
    return [] if place is None else actions(place, params.range, only, versioned)


def _from(place: Place, position: types.Position) -> tuple[int, int]:
    return place.text.lines.from_client(position.line, position.character)


def _capability(ls: Server, *way: str) -> Any:
    """What the editor says it can do, None where it does not say."""
    found: Any = ls.client_capabilities
    for name in way:
        found = getattr(found, name, None)
    return found


ANSWERS: tuple[tuple[str, Any, Any], ...] = (
    (types.INITIALIZE, _initialize, None),
    (types.INITIALIZED, _initialized, None),
    (types.WORKSPACE_DID_CHANGE_WORKSPACE_FOLDERS, _folders, None),
    (types.WORKSPACE_DID_CHANGE_WATCHED_FILES, _stirred, None),
    (types.TEXT_DOCUMENT_DID_OPEN, _open, None),
    (types.TEXT_DOCUMENT_DID_CHANGE, _change, None),
    (types.TEXT_DOCUMENT_DID_SAVE, _stirred, types.SaveOptions(include_text=False)),
    (types.TEXT_DOCUMENT_DID_CLOSE, _close, None),
    (types.TEXT_DOCUMENT_HOVER, _hover, None),
    (types.TEXT_DOCUMENT_COMPLETION, _completion, types.CompletionOptions(trigger_characters=TRIGGERS)),
    (types.TEXT_DOCUMENT_DEFINITION, _definition, None),
    (types.TEXT_DOCUMENT_DOCUMENT_SYMBOL, _symbols, None),
    (
        types.TEXT_DOCUMENT_CODE_ACTION,
        _actions,
        types.CodeActionOptions([types.CodeActionKind.QuickFix, types.CodeActionKind.SourceFixAll]),
    ),
)
"""Every message that is answered, with what is told to the editor about it."""
