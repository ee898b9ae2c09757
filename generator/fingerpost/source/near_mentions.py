"""Code spans that are mentions but for a slip: `now:D`, `Chord: Am`, `chrod: Am`, `now D`, or one without a backtick.

Told only where what follows can be nothing but what a mention says: a chord, or an id and a chord. So code that merely
looks a little like a mention (`now playing`, `chord`, `step 3`) stays code.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator

from fingerpost.diagnostics import Code, Diagnostic, Edit, Severity, Span
from fingerpost.music import chord_symbol
from fingerpost.source.findings import quoted
from fingerpost.source.keys import BLOCK_KEYS, STEP_KEYS
from fingerpost.source.mentions import KINDS, MENTION, Piece, Places, code_spans
from fingerpost.source.typing_slips import slips_between

NEAR = re.compile(r"\s*(?P<kind>[A-Za-z]{2,7})(?P<mark>\s*:\s*|[;,]\s+|\s+)(?P<said>\S.*?)?\s*", re.DOTALL)
CHORD_LIKE = re.compile(r"[A-H][#b♯♭]?[A-Za-z0-9#♯♭()/+°-]{0,12}")
ID = re.compile(r"[a-z0-9-]*[a-z]{2}[a-z0-9-]*")
SAID = r"[^\s`]{1,40}(?:[ ][^\s`]{1,40})?"
LOST_BEFORE = re.compile(rf"(?<![\w`\\:])(?P<kind>{'|'.join(KINDS)}): +(?P<said>{SAID})`(?!`)")
LOST_AFTER = re.compile(
    rf"(?<![`\\])`(?P<kind>{'|'.join(KINDS)}): +(?P<said>[^\s`]{{1,40}}(?: [A-H][^\s`]{{0,12}})?)(?![^\s`]* ?`)"
)
KEYBOARD = ("qwertyuiop", "asdfghjkl", "zxcvbnm")
NO_SLIPS = frozenset(("no", "on", *BLOCK_KEYS, *STEP_KEYS))
LONGEST = 80
"""A longer code span is no mention. By our own choice."""


def near_mentions(file: str, paragraphs: list[list[Piece]]) -> Iterator[Diagnostic]:
    """A finding for each code span of a page that was meant to be a mention."""
    for pieces in paragraphs:
        text = "\n".join(piece.text for piece in pieces)
        if "`" in text:
            yield from _of_paragraph(text, Places(file, pieces))


def _of_paragraph(text: str, places: Places) -> Iterator[Diagnostic]:
    spans = list(code_spans(text))
    for _, _, start, end in spans:
        if end - start <= LONGEST and MENTION.fullmatch(text, start, end) is None:
            yield from _misspelt(text, start, end, places)
    if any(f"{kind}:" in text for kind in KINDS):
        yield from _without_backtick(text, [(start, end) for start, end, _, _ in spans], places)


def _misspelt(text: str, start: int, end: int, places: Places) -> Iterator[Diagnostic]:
    found = NEAR.fullmatch(text, start, end)
    kind = _kind(found["kind"]) if found else ""
    if not found or not kind:
        return
    mark, said, exact = found["mark"], " ".join((found["said"] or "").split()), found["kind"] == kind
    if not said:
        if exact and ":" in mark and mark[-1:].isspace():
            span = places.span(found.start("kind"), found.end("kind") + 1)
            message = f"`{kind}:` says nothing, so the page shows it as code"
            yield _error(span, message, "the id of a block, and a chord" if kind == "step" else "a chord")
        return
    if not (exact or ":" in mark) or not _says(kind, said, sure=exact and ":" in mark):
        return
    meant, span = f"{kind}: {said}", places.span(found.start("kind"), found.end("said"))
    message, safe = (
        f"{_fault(found['kind'], kind, mark)}, so the page shows it as code",
        ":" in mark and "\n" not in text,
    )
    safe = safe and found["kind"].lower() == kind
    yield _error(span, message, f"`{meant}`", meant, (Edit(span, meant),) if safe else ())


def _fault(written: str, kind: str, mark: str) -> str:
    if written != kind:
        return f"{quoted(written)} stands where `{kind}` is due"
    if ":" not in mark:
        return f"After `{kind}` a colon is missing"
    return (
        f"A blank stands before the colon of `{kind}`" if mark[0].isspace() else f"After `{kind}:` a blank is missing"
    )


def _without_backtick(text: str, spans: list[tuple[int, int]], places: Places) -> Iterator[Diagnostic]:
    """The first mention of a paragraph whose backtick is lost; those that follow may only look so, for that reason."""
    lost = [(found, "before") for found in LOST_BEFORE.finditer(text) if not _inside(found.start(), spans)]
    lost += [(found, "after") for found in LOST_AFTER.finditer(text) if not _inside(found.start(), spans)]
    for found, where in sorted(lost, key=lambda one: one[0].start()):
        said = found["said"].rstrip(".,;:!?)")
        if _says(found["kind"], said, sure=False):
            meant = f"`{found['kind']}: {said}`"
            span = places.span(found.start("kind"), found.start("said") + len(said))
            message = f"A backtick is missing {where} `{found['kind']}: {said}`, so the page shows it as text"
            yield _error(span, message, "a backtick on both sides", meant)
            return


def _inside(at: int, spans: list[tuple[int, int]]) -> bool:
    before = bisect_right(spans, (at, len(spans) and spans[-1][1])) - 1
    return before >= 0 and at < spans[before][1]


def _says(kind: str, said: str, sure: bool) -> bool:
    """Whether these words can be what a mention says. sure: it is one by its word and its colon."""
    words = said.split()
    if kind != "step":
        return len(words) == 1 and (_is_chord(said) or (sure and CHORD_LIKE.fullmatch(said) is not None))
    if not words or not ID.fullmatch(words[0]):
        return False
    return (len(words) == 2 and _is_chord(words[1])) or (sure and all(map(ID.fullmatch, words)) and len(words) < 3)


def _is_chord(text: str) -> bool:
    if not CHORD_LIKE.fullmatch(text):
        return False
    try:
        chord_symbol.read(text)
    except chord_symbol.SymbolError:
        return False
    return True


def _kind(written: str) -> str:
    """The kind of mention that a word stands for, perhaps with a slip; "" for any other word."""
    word = written.lower()
    if word in KINDS or word in NO_SLIPS:
        return word if word in KINDS else ""
    long = (kind for kind in KINDS if len(kind) > 3 and slips_between(word, kind) is not None)
    return next(long, "now" if _is_now(word) else "")


def _is_now(word: str) -> bool:
    """Whether a word is `now` but for a likely slip; of three letters, another one is a slip only of a near key."""
    others = [(one, other) for one, other in zip(word, "now", strict=False) if one != other]
    if len(word) == 3 and len(others) == 1:
        return any("".join(pair) in row or "".join(reversed(pair)) in row for pair in others for row in KEYBOARD)
    return slips_between(word, "now") in (0, 1)


def _error(span: Span, message: str, expected: str, fix: str = "", edits: tuple[Edit, ...] = ()) -> Diagnostic:
    return Diagnostic(span, Severity.ERROR, Code.MENTION_MISWRITTEN, message, expected, fix, edits)
