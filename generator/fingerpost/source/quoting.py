"""Words that an author who knows YAML has put in quotes, read by the YAML reader from parse events, never resolved."""

from __future__ import annotations

import yaml

from fingerpost.diagnostics import Span
from fingerpost.source.syntax import Token

LONGEST = 20_000
"""Longer values stay as they were written, quotes and all: the YAML reader is not quick enough for a hostile one."""

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def unquoted(token: Token) -> Token:
    r"""The words inside the quotes where the whole value is one quoted text, else the token as it is.

    `"Let go," says Ansa. "Now."` is two quoted texts and stays as it is. The span is that of what stands between the
    quotes; an escape (`\"`, `''`) makes the words shorter than it.
    """
    text = token.text
    if len(text) < 2 or text[0] not in "\"'" or text[-1] != text[0] or len(text) > LONGEST:
        return token
    value = _quoted_value(text)
    if value is None:
        return token
    span = token.span
    return Token(value, Span(span.file, span.line, span.column + 1, span.end_line, span.end_column - 1))


def _quoted_value(text: str) -> str | None:
    """What one quoted scalar says, or None where the text is anything else."""
    inside = text[1:-1]
    if text[0] not in inside and "\\" not in inside:
        return inside
    try:
        events = list(yaml.parse(text, Loader=_LOADER))
    except (yaml.YAMLError, ValueError):
        return None
    scalars = [event for event in events if isinstance(event, yaml.ScalarEvent)]
    return str(scalars[0].value) if len(events) == 5 and len(scalars) == 1 else None
