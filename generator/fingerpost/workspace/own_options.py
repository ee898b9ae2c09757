"""Finding our own options among the settings of a course."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fingerpost.diagnostics import Span
from fingerpost.workspace.settings_file import SettingsFile, Where

OUR_NAMES = ("fingerpost", "fingerpost.site.extension")


def own_options(values: Mapping[str, Any]) -> tuple[Where, Mapping[str, Any] | None]:
    """The options of our plugin (or of the bare extension) and the way down to them; None where neither is on."""
    for setting in ("plugins", "markdown_extensions"):
        for way, name, options in _entries(values.get(setting), setting):
            if name in OUR_NAMES:
                return way, options if isinstance(options, Mapping) else {}
    return (), None


def option_places(settings: SettingsFile) -> dict[str, Span]:
    """Where each of our options is written, by its dotted name."""
    way, _ = own_options(settings.values)
    depth, places = len(way), settings.places.items() if way else ()
    return {".".join(map(str, at[depth:])): span for at, span in places if at[:depth] == way and at != way}


def place_of_option(key: str, places: Mapping[str, Span], settings_name: str) -> Span:
    """Where an option is written; of one inside another, at least where that other is; else the file's beginning."""
    return places.get(key) or places.get(key.split(".")[0]) or Span(settings_name, 1, 1, 1, 1)


def _entries(listed: Any, setting: str) -> list[tuple[Where, str, Any]]:
    """Each entry of a list of plugins or extensions, which may be a mapping or a list of names and mappings."""
    if isinstance(listed, Mapping):
        return [((setting, name), name, options) for name, options in listed.items()]
    found: list[tuple[Where, str, Any]] = []
    for index, item in enumerate(listed if isinstance(listed, list) else ()):
        pairs = item.items() if isinstance(item, Mapping) else [(item, None)]
        found += [((setting, index, str(name)), str(name), options) for name, options in pairs]
    return found
