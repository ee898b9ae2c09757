"""Words that nobody should write: markup, breaks, marks that turn the direction of writing, control characters."""

from __future__ import annotations

from random import Random

MARKUP = (
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "</section></div><script>alert(1)</script>",
    '" onmouseover="alert(1)',
    "' onfocus='alert(1)' autofocus='",
    "javascript:alert(1)",
    "[words](javascript:alert(1))",
    "![x](javascript:alert(1))",
    "<svg/onload=alert(1)>",
    "<a href='javascript:alert(1)'>x</a>",
    "<style>*{display:none}</style>",
    "<!-- ",
    "-->",
    "]]>",
    "<![CDATA[",
    "&lt;script&gt;",
    "&#60;script&#62;",
    "<iframe srcdoc='<script>alert(1)</script>'>",
    "{{ config }}",
    "{% include 'x' %}",
    "<base href=//x>",
    "<math><mtext></p><img src=x>",
    "{: onclick=alert(1) }",
)
MARKS = (
    *("\u202e", "\u2066", "\u200b", "\u200d", "\ufeff", "\u00ad", "\u0301" * 9, "\ud800", "\udfff", "\uffff", "\x00"),
    *("\x02", "\x03", "\x02fp0\x03", "\x02wzxhzdk:0\x03", "\x1b[31m", "\x07", "\x0c", "\x0b", "\x1c", "\x85", "\u2028"),
    *("\u2029", "\t", "\U0001f3b8", "é", "ﬁ", "１", "٣", "𝟙", "♯", "♭", "\u2212", "\u2013", "\u00a0", "%0A::error::x"),
)
SIGNS = (
    "&a ",
    "*a",
    "<<: *a",
    "!!python/object/apply:os.system",
    "|",
    ">",
    "'",
    '"',
    "\\",
    "{",
    "[",
    "%",
    "@",
    "`",
    "#",
    " # ",
)
WORDS = ("Keep 2 down.", "a", "G", "previous", "Let it ring: now.", "x" * 300, "1:20", "off", "")
ALL = (*MARKUP, *MARKS, *SIGNS, *WORDS)


def text(rng: Random) -> str:
    """A line of words, mostly hostile, without a line break."""
    return "".join(rng.choice(ALL) for _ in range(rng.choice((1, 1, 2, 4))))
