"""A real editor's side of the conversation: pygls' client, which starts the server as a process, over stdio."""

from __future__ import annotations

import asyncio
import sys
from collections.abc import Awaitable, Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, TypeVar

from lsprotocol import types
from pygls.lsp.client import LanguageClient

COMMAND = (sys.executable, "-m", "fingerpost.cli", "editor", "--stdio")
PATIENCE = 60.0
T = TypeVar("T")
Talk = Callable[[Callable[["Editor"], Awaitable[Any]]], Any]


class Editor(LanguageClient):
    """Opens, types and asks; published: for each text the last findings with the version they are about."""

    def __init__(self) -> None:
        super().__init__("test", "1")
        self.published: dict[str, types.PublishDiagnosticsParams] = {}
        self.all_published: list[types.PublishDiagnosticsParams] = []
        self.complaints: list[str] = []
        self.texts: dict[str, str] = {}
        self.versions: dict[str, int] = {}
        self.came = asyncio.Event()
        self.feature(types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)(lambda params: self._take(params))
        self.feature(types.WINDOW_SHOW_MESSAGE)(lambda params: self.complaints.append(params.message))
        self.feature(types.WINDOW_LOG_MESSAGE)(lambda params: self.complaints.append(params.message))
        self.feature(types.CLIENT_REGISTER_CAPABILITY)(lambda params: None)

    def _take(self, params: types.PublishDiagnosticsParams) -> None:
        self.published[params.uri] = params
        self.all_published.append(params)
        self.came.set()

    async def begin(self, folder: Path | None, encodings: list[str] | None = None) -> str:
        """Starts the server; the encoding agreed upon."""
        await self.start_io(*COMMAND)
        markdown = types.HoverClientCapabilities(content_format=[types.MarkupKind.Markdown])
        said = types.ClientCapabilities(
            general=types.GeneralClientCapabilities(position_encodings=encodings),
            text_document=types.TextDocumentClientCapabilities(hover=markdown),
            workspace=types.WorkspaceClientCapabilities(
                workspace_edit=types.WorkspaceEditClientCapabilities(document_changes=True),
                did_change_watched_files=types.DidChangeWatchedFilesClientCapabilities(dynamic_registration=True),
            ),
        )
        folders = None if folder is None else [types.WorkspaceFolder(folder.as_uri(), folder.name)]
        asked = types.InitializeParams(capabilities=said, workspace_folders=folders)
        result = await asyncio.wait_for(self.initialize_async(asked), PATIENCE)
        self.initialized(types.InitializedParams())
        return str(getattr(result.capabilities.position_encoding, "value", result.capabilities.position_encoding))

    def open(self, path: Path | str, text: str | None = None) -> str:
        """Opens a file, with another text than the saved one if given; its address."""
        uri = path.as_uri() if isinstance(path, Path) else path
        shown = text if text is not None else Path(path).read_bytes().decode()
        self.texts[uri], self.versions[uri] = shown, 1
        self.text_document_did_open(
            types.DidOpenTextDocumentParams(types.TextDocumentItem(uri, types.LanguageKind.Markdown, 1, shown))
        )
        return uri

    def write(self, uri: str, text: str) -> int:
        """Replaces the whole text; its version."""
        self.texts[uri] = text
        return self.send(uri, types.TextDocumentContentChangeWholeDocument(text))

    def send(self, uri: str, change: types.TextDocumentContentChangeEvent) -> int:
        """Sends one change as it is; the version."""
        self.versions[uri] += 1
        version = types.VersionedTextDocumentIdentifier(self.versions[uri], uri)
        self.text_document_did_change(types.DidChangeTextDocumentParams(version, [change]))
        return self.versions[uri]

    async def findings(self, uri: str) -> list[types.Diagnostic]:
        """The findings about the text as it is now."""
        await self.until(lambda: uri in self.published and self.published[uri].version == self.versions[uri])
        return list(self.published[uri].diagnostics)

    async def codes(self, uri: str) -> list[str]:
        """Their codes."""
        return [str(finding.code) for finding in await self.findings(uri)]

    async def until(self, holds: Callable[[], bool]) -> None:
        """Waits for what is published until something holds."""
        async with asyncio.timeout(PATIENCE):
            while not holds():
                self.came.clear()
                await self.came.wait()

    def after(self, uri: str, words: str) -> types.Position:
        """The place right behind some words, in UTF-16."""
        text = self.texts[uri]
        before = text[: text.index(words) + len(words)]
        line = before.count("\n")
        return types.Position(line, len(before.rpartition("\n")[2].encode("utf-16-le")) // 2)

    async def hovered(self, uri: str, words: str) -> str:
        """What is said where some words end."""
        asked = types.HoverParams(types.TextDocumentIdentifier(uri), self.after(uri, words))
        said = await self.text_document_hover_async(asked)
        return "" if said is None else said.contents.value

    async def offered(self, uri: str, words: str) -> list[types.CompletionItem]:
        """What is offered where some words end."""
        asked = types.CompletionParams(types.TextDocumentIdentifier(uri), self.after(uri, words))
        return list((await self.text_document_completion_async(asked)).items)

    async def leads_to(self, uri: str, words: str) -> list[tuple[str, int]]:
        """Where some words lead: file name and line, counted from 1."""
        asked = types.DefinitionParams(types.TextDocumentIdentifier(uri), self.after(uri, words))
        found = await self.text_document_definition_async(asked)
        return [(one.uri.rpartition("/")[2], one.range.start.line + 1) for one in found or []]

    async def fixes(self, uri: str, only: list[str] | None = None) -> list[types.CodeAction]:
        """All code actions of a text."""
        everything = types.Range(types.Position(0, 0), types.Position(10_000, 0))
        context = types.CodeActionContext([], only)
        asked = types.CodeActionParams(types.TextDocumentIdentifier(uri), everything, context)
        return list(await self.text_document_code_action_async(asked) or [])

    def close(self, uri: str) -> None:
        """Closes a text."""
        del self.texts[uri]
        self.text_document_did_close(types.DidCloseTextDocumentParams(types.TextDocumentIdentifier(uri)))

    def close_all(self) -> None:
        """Closes what is open."""
        for uri in list(self.texts):
            self.close(uri)

    async def end(self) -> None:
        """Says goodbye; the server leaves by itself."""
        await asyncio.wait_for(self.shutdown_async(None), PATIENCE)
        self.exit(None)
        if self._server is not None:
            await asyncio.wait_for(self._server.wait(), PATIENCE)


async def leave(editor: Editor) -> None:
    """Ends a server; it must leave with exit code 0 and must have had nothing to complain about."""
    server = editor._server
    assert server is not None
    try:
        await editor.end()
        assert server.returncode == 0
        assert editor.complaints == []
    finally:
        if server.returncode is None:
            server.kill()
        await editor.stop()


def talk(conversation: Callable[[Editor], Awaitable[T]]) -> T:
    """One conversation with a server of its own; the conversation begins it."""

    async def whole() -> T:
        editor = Editor()
        try:
            return await conversation(editor)
        finally:
            await leave(editor)

    return asyncio.run(whole())


@contextmanager
def talks() -> Iterator[Talk]:
    """Several conversations with one server that was told of no folder, so that it finds each course by itself."""
    with asyncio.Runner() as runner:
        editor = Editor()
        runner.run(editor.begin(None))

        def one(conversation: Callable[[Editor], Awaitable[Any]]) -> Any:
            async def whole() -> Any:
                try:
                    return await conversation(editor)
                finally:
                    editor.close_all()

            said = runner.run(whole())
            assert editor.complaints == []
            return said

        yield one
        runner.run(leave(editor))
