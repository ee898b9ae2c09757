"""Words that an author who knows YAML has put in quotes, read by the YAML reader from parse events, never resolved."""

from __future__ import annotations

import yaml

from fingerpost.diagnostics import Span
from fingerpost.source.syntax import Token


def unquoted(token: Token) -> Token:
    """The words inside the quotes where the whole value is one quoted text, else the token as it is.

    `"Let go," says Ansa. "Now."` is two quoted texts and stays as it is. An escape (`\\"`, `''`) makes the words shorter
    than the span, which is that of what stands between the quotes.
    """
    text = token.text
    if len(text) < 2 or text[0] not in "\"'" or text[-1] != text[0]:
        return token
    value = _quoted_value(text)
    if value is None:
        return token
    span = token.span
    inside = Span(span.file, span.line, span.column + 1, span.end_line, span.end_column - 1)
    return Token(value, inside)


def _quoted_value(text: str) -> str | None:
    """What one quoted scalar says, or None where the text is anything else."""
    try:
        events = list(yaml.parse(text, Loader=yaml.SafeLoader))
    except yaml.YAMLError:
        return None
    scalars = [event for event in events if isinstance(event, yaml.ScalarEvent)]
    return str(scalars[0].value) if len(events) == 5 and len(scalars) == 1 else None
