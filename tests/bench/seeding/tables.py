"""The table of a run: a row a kind, then the sum of those slips that change what a student does."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from .judging import Verdict

HEAD = (
    f"{'slip':<20}{'places':>7}{'change':>7}{'caught':>7}{'line':>6}{'column':>7}{'fix':>6}{'said':>6}"
    f"{'denied':>8}{'caught':>8}{'line':>8}{'column':>8}{'fix':>8}"
)
LEGEND = """\
change: of the places, where a student would do, see or hear something else; the counts up to `said` (findings a slip
that is caught) are of these. denied: of these, where something in the text contradicts the slip, by an oracle that
plays the course from its text and knows nothing of the check; the others have made another right course, of which
nobody can know who has only the text. The shares on the right are of those that are denied; against them stands the
aim of 99 % caught in their place with the right fix."""


def rows(verdicts: Iterable[Verdict]) -> Iterator[str]:
    """The lines of the table and what they mean."""
    kinds: dict[str, list[Verdict]] = {}
    for verdict in verdicts:
        kinds.setdefault(verdict.slip.kind, []).append(verdict)
    every = [verdict for found in kinds.values() for verdict in found]
    yield HEAD
    for kind, found in kinds.items():
        yield row(kind, found)
    yield row("all", every)
    yield LEGEND
    real = [verdict for verdict in every if verdict.changes]
    yield f"of all {len(real)} that change something: " + ", ".join(_shares(real))
    denied = [verdict for verdict in real if verdict.denied]
    yield f"of the {len(denied)} of them that the text denies: " + ", ".join(_shares(denied))
    yield f"found, though by the oracle a right course: {sum(bool(v.caught) for v in real if not v.denied)}"


WHAT = {"caught": "caught", "line": "in line", "column": "at the word", "fixed": "with the right fix"}


def _shares(verdicts: list[Verdict]) -> list[str]:
    return [
        f"{100 * sum(getattr(v, what) for v in verdicts) / max(1, len(verdicts)):.1f} % {words}"
        for what, words in WHAT.items()
    ]


def row(name: str, found: list[Verdict]) -> str:
    """Counts and shares of one kind."""
    real = [verdict for verdict in found if verdict.changes]
    counts = [sum(getattr(v, what) for v in real) for what in WHAT]
    caught, line, column, fixed = counts
    said = sum(verdict.said for verdict in real) / max(1, caught)
    denied = [verdict for verdict in real if verdict.denied]
    shares = "".join(f"{share.split(' ')[0] if denied else '-':>8}" for share in _shares(denied))
    return (
        f"{name:<20}{len(found):>7}{len(real):>7}{caught:>7}{line:>6}{column:>7}{fixed:>6}{said:>6.2f}"
        f"{len(denied):>8}{shares}"
    )
