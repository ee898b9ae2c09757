"""The table of a run: a row a kind, then the sum of those slips that change what a student does."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from .judging import Verdict

HEAD = f"{'slip':<22}{'places':>7}{'change':>8}{'caught':>8}{'line':>7}{'column':>8}{'fix':>6}{'said':>7}"


def rows(verdicts: Iterable[Verdict]) -> Iterator[str]:
    """The lines of the table. said: findings a slip that is caught, all told."""
    kinds: dict[str, list[Verdict]] = {}
    for verdict in verdicts:
        kinds.setdefault(verdict.slip.kind, []).append(verdict)
    yield HEAD
    for kind, found in kinds.items():
        yield row(kind, found)
    yield row("all", [verdict for found in kinds.values() for verdict in found])


def row(name: str, found: list[Verdict]) -> str:
    """Counts of one kind; all but the first are of those that change something."""
    real = [verdict for verdict in found if verdict.changes]
    counts = [sum(getattr(v, what) for v in real) for what in ("caught", "line", "column", "fixed")]
    said = sum(verdict.said for verdict in real) / max(1, counts[0])
    caught, line, column, fixed = counts
    share = f"   {100 * caught / max(1, len(real)):.1f} % caught, {100 * line / max(1, len(real)):.1f} % in place"
    return f"{name:<22}{len(found):>7}{len(real):>8}{caught:>8}{line:>7}{column:>8}{fixed:>6}{said:>7.2f}{share}"
