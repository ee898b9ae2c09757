"""How much each kind of finding weighs, and which of them `check --fix` can mend; the guide's list shows both."""

from __future__ import annotations

from fingerpost.diagnostics import Code, Severity

_UNLIKE_ERRORS: dict[Code, tuple[Severity, ...]] = {
    Code.FENCE_UNCLOSED: (Severity.ERROR, Severity.WARNING),
    Code.FENCE_INDENT: (Severity.WARNING,),
    Code.BAD_VALUE: (Severity.ERROR, Severity.WARNING),
    Code.FRONT_MATTER: (Severity.ERROR, Severity.WARNING),
    Code.START_WITHOUT_FINGERS: (Severity.WARNING,),
    Code.DAMPING_LAPSED: (Severity.WARNING, Severity.NOTE),
    Code.PRESSED_BUT_NOT_STRUCK: (Severity.WARNING,),
    Code.NO_SOUND_CHANGES: (Severity.WARNING,),
    Code.SHAPE_REPEATED: (Severity.NOTE,),
    Code.NAME_WOULD_HOLD: (Severity.NOTE,),
    Code.TIE_DECIDED_OTHERWISE: (Severity.ERROR, Severity.WARNING),
    Code.UNUSED_ID: (Severity.NOTE,),
    Code.TAUGHT_BUT_NOT_USED: (Severity.WARNING,),
    Code.CUES_OUT_OF_ORDER: (Severity.WARNING,),
    Code.HARDER_STEP: (Severity.NOTE,),
    Code.NO_WARM_UP: (Severity.NOTE,),
    Code.NO_REST: (Severity.NOTE,),
    Code.DEAD_LINK: (Severity.ERROR, Severity.WARNING),
    Code.DEAD_REDIRECT: (Severity.ERROR, Severity.WARNING),
    Code.PAGE_NOT_IN_NAV: (Severity.WARNING,),
    Code.ACCEPTANCE_WITHOUT_REASON: (Severity.WARNING,),
    Code.ACCEPTANCE_UNKNOWN: (Severity.WARNING,),
    Code.ACCEPTANCE_REFUSED: (Severity.WARNING,),
    Code.ACCEPTANCE_LAPSED: (Severity.WARNING,),
    Code.BAD_SETTING: (Severity.ERROR, Severity.WARNING),
}

MENDED = frozenset(
    {
        *(
            Code.FENCE_INDENT,
            Code.FENCE_MISWRITTEN,
            Code.UNKNOWN_KEY,
            Code.FRONT_MATTER,
            Code.BAD_VALUE,
            Code.START_WITHOUT_FINGERS,
        ),
        *(Code.NAME_WOULD_HOLD, Code.TIE_DECIDED_OTHERWISE, Code.USED_BEFORE_TAUGHT, Code.ACCEPTANCE_LAPSED),
        *(Code.DEAD_LINK, Code.MENTION_MISWRITTEN),
    }
)
"""Findings that may come with a fix which is safe to make without asking."""


def weights(code: Code) -> tuple[Severity, ...]:
    """What a finding of this code can be, the heaviest first; an error where nothing else is said."""
    return _UNLIKE_ERRORS.get(code, (Severity.ERROR,))
