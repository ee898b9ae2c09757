"""Plans as a person reads them, and as JSON; and why there is none."""

from __future__ import annotations

from collections.abc import Iterator

from fingerpost.cli.answer import say_json
from fingerpost.cli.route_reasons import no_shape
from fingerpost.music.chord_symbol import write
from fingerpost.music.plain_name import first_name
from fingerpost.music.plans.plan import Plan, Planning
from fingerpost.music.routes.question import End
from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import write_shape


def as_json(planning: Planning, plan: Plan) -> None:
    """One object: the chords as they are met, the figures, the first shape and the steps."""
    say_json(
        {
            "chords": [called(planning.wish[number]) for number in plan.order],
            "length": plan.length,
            "cost": plan.cost,
            "bound": plan.bound,
            "proven": plan.proven,
            "difficulty": plan.difficulty,
            "climb": plan.climb,
            "from": write_shape(plan.start),
            "steps": [
                {"move": move, "shape": shape, "symbol": symbol, "passing": passing}
                for move, shape, symbol, passing in rows(planning, plan)
            ],
        }
    )


def none_as_json(planning: Planning) -> None:
    """One object that says why there is no plan."""
    say_json(
        {"chords": [called(end) for end in planning.wish], "unreachable": True, "because": list(because(planning))}
    )


def none_as_text(planning: Planning) -> None:
    """Why there is no plan."""
    print(f"There is no plan for {', '.join(called(end) for end in planning.wish)}.")
    for sentence in because(planning):
        print(f"  - {sentence}")
    print()


def as_text(planning: Planning, plan: Plan) -> None:
    """What the plan comes to, how good it is, then its steps; a chord that is only passed is in brackets."""
    print(f"{', '.join(called(planning.wish[number]) for number in plan.order)}: {_counted(plan.length, 'move')}")
    print(f"{quality(plan)} {plan.difficulty:.2f} points in all, {plan.climb:.2f} of them climbed.\n")
    found = list(rows(planning, plan))
    first = (write_shape(plan.start), called(planning.wish[plan.order[0]]))
    moves = max([len("start"), *(len(move) for move, *_ in found)])
    wide = max([len(first[0]), *(len(shape) for _, shape, *_ in found)])
    print(f"      {'start':<{moves}}  {first[0]:<{wide}}  {first[1]}")
    for number, (move, shape, symbol, passing) in enumerate(found, 1):
        print(f"  {number:>2}. {move:<{moves}}  {shape:<{wide}}  {f'({symbol})' if passing else symbol}")
    print()


def quality(plan: Plan) -> str:
    """How good a plan is known to be, in a sentence."""
    if plan.proven:
        return "No plan has fewer moves, and none of as few is easier."
    if plan.bound == plan.length:
        return "No plan has fewer moves; an easier one may exist."
    more = plan.length - plan.bound
    return f"Any plan needs {_counted(plan.bound, 'move')}, so this has {more} more than the best at most."


def rows(planning: Planning, plan: Plan) -> Iterator[tuple[str, str, str, bool]]:
    """Of each step: the move, the shape, its name, and whether it is only passed."""
    for item in plan.steps:
        symbol = _symbol(planning, item.step.shape) if item.meets is None else called(planning.wish[item.meets])
        yield item.step.text, write_shape(item.step.shape), symbol, item.meets is None


def because(planning: Planning) -> Iterator[str]:
    """Why there is no plan."""
    for end in planning.missing:
        if planning.hardest is not None and planning.atlas.shapes(end, planning.question):
            least = min(
                planning.neck.hand.cost(shape, planning.neck.fretboard)
                for shape in planning.atlas.shapes(end, planning.question)
            )
            yield f"the easiest shape of {called(end)} costs {least:.2f} points to hold, over --hardest"
        elif end.chosen:
            yield no_shape(end, planning.question)
        else:
            yield f"{called(end)} does not keep to what is asked of every shape, or no hand can hold it"
    if not planning.missing and planning.impossible:
        yield "no chain of one finger's moves joins them all within what is asked and the limits of the hand"
    elif not planning.missing:
        yield "the search ended before any plan was found, so it is not certain that there is none"


def called(end: End) -> str:
    """A wished-for chord by its symbol, or a shape as text."""
    return end.text if end.chord is None else write(end.chord)


def _symbol(planning: Planning, shape: Shape) -> str:
    name = first_name(shape.frets, planning.question.fretboard, planning.question.conditions.key)
    return "(silent)" if name is None else name.symbol


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'s' * (number != 1)}"
