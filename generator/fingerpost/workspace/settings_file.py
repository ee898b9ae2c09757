"""Reading mkdocs.yml without running anything that it names: tags make nothing, aliases and depth are bounded."""

from __future__ import annotations

import os
import posixpath
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from fingerpost.diagnostics import Code, Diagnostic, Severity, Span
from fingerpost.workspace.files import DiskFiles, Files, TooLargeError

Key = str | int
Where = tuple[Key, ...]

MOST_BYTES = 1_000_000
MOST_NODES = 100_000
MOST_DEPTH = 60
MOST_PARENTS = 8
_MERGE = "tag:yaml.org,2002:merge"
_PLAIN = "tag:yaml.org,2002:"
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True)
class SettingsFile:
    """What mkdocs.yml says.

    places: where each key stands, by its way down, such as ("plugins", 1, "fingerpost", "capo").
    said: where the value of each key and of each item of a list stands.
    usable is False where the file could not be read as settings at all; findings then say why.
    """

    values: Mapping[str, Any]
    places: Mapping[Where, Span]
    findings: tuple[Diagnostic, ...] = ()
    usable: bool = True
    said: Mapping[Where, Span] = field(default_factory=dict)


def _text(node: yaml.ScalarNode) -> Any:
    return node.value


_MAKE: Any = yaml.constructor.SafeConstructor()
_SCALARS: Mapping[str, Callable[[yaml.ScalarNode], Any]] = {
    "str": _text,
    "timestamp": _text,
    "value": _text,
    "int": _MAKE.construct_yaml_int,
    "float": _MAKE.construct_yaml_float,
    "bool": _MAKE.construct_yaml_bool,
}
_KINDS = {_PLAIN + kind for kind in ("map", "seq", *_SCALARS)}


class _RefusedError(Exception):
    """The file asks for more than is allowed; the sentence says what."""

    def __init__(self, message: str, expected: str, node: yaml.Node | None = None) -> None:
        super().__init__(message)
        self.message, self.expected, self.node = message, expected, node


class _Maker:
    """Makes plain values out of a tree of nodes, counting as it goes, and notes where each key and value stands."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.places: dict[Where, Span] = {}
        self.said: dict[Where, Span] = {}
        self._left = MOST_NODES

    def value(self, node: yaml.Node, way: Where = ()) -> Any:
        """The plain value of a node; None for anything with a tag that is not one of YAML's own."""
        self._left -= 1
        if self._left < 0 or len(way) > MOST_DEPTH:
            raise _RefusedError(
                "This file grows beyond all bounds when its aliases are followed", "plain settings", node
            )
        self.said.setdefault(way, self.places.setdefault(way, span_of(self.file, node)))
        if node.tag not in _KINDS:
            return None
        if isinstance(node, yaml.MappingNode):
            return self._mapping(node, way)
        if isinstance(node, yaml.SequenceNode):
            return [self.value(item, (*way, index)) for index, item in enumerate(node.value)]
        return self._scalar(node)

    def _mapping(self, node: yaml.MappingNode, way: Where) -> dict[str, Any]:
        merged: dict[str, Any] = {}
        own: dict[str, Any] = {}
        for key, child in node.value:
            if key.tag == _MERGE:
                merged |= self._merge(child, way)
                continue
            name = str(self._scalar(key)) if isinstance(key, yaml.ScalarNode) else ""
            own[name] = self.value(child, (*way, name))
            self.places[(*way, name)] = span_of(self.file, key)
        return merged | own

    def _merge(self, node: yaml.Node, way: Where) -> dict[str, Any]:
        value = self.value(node, way)
        parts = value if isinstance(value, list) else [value]
        return {key: item for part in reversed(parts) if isinstance(part, dict) for key, item in part.items()}

    def _scalar(self, node: yaml.Node) -> Any:
        if not isinstance(node, yaml.ScalarNode):
            return None
        kind = node.tag.removeprefix(_PLAIN)
        try:
            return _SCALARS[kind](node) if kind in _SCALARS else None
        except ValueError:
            return node.value


def read_settings_file(path: Path, root: Path, shown: str = "mkdocs.yml") -> SettingsFile:
    """Reads mkdocs.yml on the disk and what it inherits from, which must lie under `root`."""
    return read_settings(DiskFiles(root), Path(os.path.relpath(path, root)).as_posix(), shown)


def read_settings(files: Files, path: str, shown: str = "mkdocs.yml") -> SettingsFile:
    """Reads mkdocs.yml and what it inherits from, out of `files` alone. `shown` is its name in findings."""
    return _read(files, path, shown, MOST_PARENTS)


def _read(files: Files, path: str, shown: str, parents_left: int) -> SettingsFile:
    try:
        if files.leads_out(path):
            raise _RefusedError(f"{shown} is a link that leads out of the course's folder", "a file of the course")
        data = files.read(path, MOST_BYTES)
        node = yaml.compose(data.decode("utf-8-sig"), Loader=_LOADER)
        maker = _Maker(shown)
        values = {} if node is None else maker.value(node)
    except (OSError, TooLargeError, UnicodeDecodeError, yaml.YAMLError, RecursionError, _RefusedError) as error:
        return SettingsFile({}, {}, (_unreadable(shown, error),), usable=False)
    if not isinstance(values, dict):
        return SettingsFile(
            {}, {}, (_finding(shown, f"{shown} holds no settings", "lines of `key: value`"),), usable=False
        )
    own = SettingsFile(values, maker.places, said=maker.said)
    return _inherited(own, files, path, parents_left) if "INHERIT" in values else own


def _inherited(own: SettingsFile, files: Files, path: str, parents_left: int) -> SettingsFile:
    place = own.places[("INHERIT",)]
    parent_path = posixpath.join(posixpath.dirname(path), str(own.values["INHERIT"]))
    if parents_left == 0 or files.leads_out(parent_path) or not files.is_file(parent_path):
        finding = Diagnostic(
            place,
            Severity.ERROR,
            Code.LINK_OUT_OF_TREE if files.leads_out(parent_path) else Code.UNREADABLE_FILE,
            f"INHERIT names {own.values['INHERIT']}, which can't be used",
            "a file inside the course's folder, not inheriting from itself",
            "move that file into the folder that holds mkdocs.yml",
        )
        return SettingsFile(own.values, own.places, (finding,), said=own.said)
    parent = _read(files, parent_path, str(own.values["INHERIT"]), parents_left - 1)
    values = _merged(parent.values, own.values)
    said = {**parent.said, **own.said}
    return SettingsFile(values, {**parent.places, **own.places}, parent.findings, said=said)


def _merged(below: Mapping[str, Any], above: Mapping[str, Any]) -> dict[str, Any]:
    """Both mappings, key by key, the second before the first; a list replaces a list, as MkDocs' inheritance does."""
    out = dict(below)
    for key, value in above.items():
        old = out.get(key)
        if isinstance(old, dict) and isinstance(value, dict):
            out[key] = _merged(old, value)
        else:
            out[key] = value
    return out


def span_of(file: str, node: yaml.Node) -> Span:
    """Where a node stands, counted from 1."""
    start, end = node.start_mark, node.end_mark
    return Span(file, start.line + 1, start.column + 1, end.line + 1, end.column + 1)


def _finding(shown: str, message: str, expected: str, span: Span | None = None) -> Diagnostic:
    return Diagnostic(
        span or Span(shown, 1, 1, 1, 1), Severity.ERROR, Code.UNREADABLE_FILE, message, expected,
        "write the file anew, or compare it with one made by `fingerpost new`",
    )  # fmt: skip


def _unreadable(shown: str, error: Exception) -> Diagnostic:
    if isinstance(error, _RefusedError):
        span = span_of(shown, error.node) if error.node else None
        return _finding(shown, error.message, error.expected, span)
    if isinstance(error, yaml.MarkedYAMLError) and error.problem_mark is not None:
        mark = error.problem_mark
        span = Span(shown, mark.line + 1, mark.column + 1, mark.line + 1, mark.column + 2)
        return _finding(shown, f"{shown} can't be read here: {error.problem}", "settings in YAML", span)
    if isinstance(error, TooLargeError):
        return _finding(shown, f"{shown} has {error.size:,} bytes", f"at most {MOST_BYTES:,} bytes")
    if isinstance(error, OSError):
        return _finding(
            shown, f"{shown} can't be opened: {(error.strerror or 'unknown reason').lower()}", "a readable file"
        )
    if isinstance(error, UnicodeDecodeError):
        return _finding(shown, f"{shown} is not UTF-8 text (byte {error.start + 1})", "text in UTF-8")
    return _finding(
        shown, f"{shown} is nested too deeply or holds characters that no text has", "plain settings in YAML"
    )
