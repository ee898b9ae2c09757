"""What a check found and where: data only, ordered, without formatting."""

from __future__ import annotations

import enum
from dataclasses import dataclass, field


@dataclass(frozen=True, order=True, slots=True)
class Span:
    """A stretch of a source file; lines and columns count from 1 in Unicode code points, the end is exclusive."""

    file: str
    line: int
    column: int
    end_line: int
    end_column: int

    def part(self, start: int, end: int) -> Span:
        """The stretch from code point `start` to `end` of this span; both count from 0 on its first line."""
        return Span(self.file, self.line, self.column + start, self.line, self.column + end)

    def to(self, other: Span) -> Span:
        """The stretch from the start of this span to the end of `other`."""
        return Span(self.file, self.line, self.column, other.end_line, other.end_column)


class Severity(enum.StrEnum):
    """How much a finding weighs: an error makes the page wrong, a warning is likely a slip, a note is advice."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


class Code(enum.StrEnum):
    """The closed list of what can be found; the value is what reports print."""

    # reading the text
    BLOCK_UNREADABLE = "block-unreadable"
    BLOCK_TOO_LARGE = "block-too-large"
    BLOCK_EMPTY = "block-empty"
    FENCE_UNCLOSED = "fence-unclosed"
    FENCE_INDENT = "fence-indent"
    FENCE_MISWRITTEN = "fence-miswritten"
    ANCHOR_OR_TAG = "anchor-or-tag"
    UNKNOWN_KEY = "unknown-key"
    DUPLICATE_KEY = "duplicate-key"
    MISSING_KEY = "missing-key"
    BAD_VALUE = "bad-value"
    MOVE_UNREADABLE = "move-unreadable"
    UNKNOWN_STRING = "unknown-string"
    UNKNOWN_FINGER = "unknown-finger"
    UNKNOWN_FRET = "unknown-fret"
    SYMBOL_UNREADABLE = "symbol-unreadable"
    FRONT_MATTER = "front-matter"
    INVALID_UTF8 = "invalid-utf8"
    # the hand
    FINGER_NOT_DOWN = "finger-not-down"
    TOO_MANY_FINGERS = "too-many-fingers"
    IMPOSSIBLE_HAND = "impossible-hand"
    IMPOSSIBLE_MOVE = "impossible-move"
    START_WITHOUT_FINGERS = "start-without-fingers"
    DAMPING_LAPSED = "damping-lapsed"
    PRESSED_BUT_NOT_STRUCK = "pressed-but-not-struck"
    NO_SOUND_CHANGES = "no-sound-changes"
    SOUND_CHANGES_AFTER_ALL = "sound-changes-after-all"
    SHAPE_REPEATED = "shape-repeated"
    # names
    NAME_IS_WRONG = "name-is-wrong"
    NAME_IS_LOOSE = "name-is-loose"
    NAME_WOULD_HOLD = "name-would-hold"
    TIE_DECIDED_OTHERWISE = "tie-decided-otherwise"
    # the course
    DUPLICATE_ID = "duplicate-id"
    UNUSED_ID = "unused-id"
    UNRESOLVED_START = "unresolved-start"
    UNRESOLVED_MENTION = "unresolved-mention"
    MENTION_DENIED = "mention-denied"
    MENTION_MISWRITTEN = "mention-miswritten"
    USED_BEFORE_TAUGHT = "used-before-taught"
    TAUGHT_BUT_NOT_USED = "taught-but-not-used"
    MISSING_IMAGE = "missing-image"
    CUES_OUT_OF_ORDER = "cues-out-of-order"
    HARDER_STEP = "harder-step"
    NO_WARM_UP = "no-warm-up"
    NO_REST = "no-rest"
    # links
    DEAD_LINK = "dead-link"
    DEAD_REDIRECT = "dead-redirect"
    BLOCKED_BY_POLICY = "blocked-by-policy"
    PAGE_NOT_IN_NAV = "page-not-in-nav"
    # acceptances
    ACCEPTANCE_WITHOUT_REASON = "acceptance-without-reason"
    ACCEPTANCE_UNKNOWN = "acceptance-unknown"
    ACCEPTANCE_REFUSED = "acceptance-refused"
    ACCEPTANCE_LAPSED = "acceptance-lapsed"
    # settings and files
    BAD_SETTING = "bad-setting"
    UNREADABLE_FILE = "unreadable-file"
    LINK_OUT_OF_TREE = "link-out-of-tree"


@dataclass(frozen=True, order=True, slots=True)
class Edit:
    """One replacement of a stretch of the source by other text."""

    span: Span
    text: str


@dataclass(frozen=True, order=True, slots=True)
class Diagnostic:
    """One finding.

    message: what is wrong, one sentence. expected: what was expected, a phrase. fix: the nearest fix, as the text to
    write or a short instruction ("" where there is none). edits: the same fix as replacements, only where it is safe
    to apply without asking.
    """

    span: Span
    severity: Severity = field(compare=False)
    code: Code
    message: str
    expected: str = ""
    fix: str = ""
    edits: tuple[Edit, ...] = field(default=(), compare=False)
