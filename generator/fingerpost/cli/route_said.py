"""Routes as a person reads them, and as JSON; and why there is none, with what would have to give."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from fingerpost.cli.answer import say_json
from fingerpost.cli.route_reasons import because, given_up
from fingerpost.music.chord_symbol import write
from fingerpost.music.pitch import Pitch
from fingerpost.music.plain_name import first_name
from fingerpost.music.routes.question import End, Question
from fingerpost.music.routes.relaxed import Loosening
from fingerpost.music.routes.route import Route
from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import write_shape

if TYPE_CHECKING:
    from fingerpost.cli.route_question import Asked


def routes_as_json(question: Question, routes: list[Route], asked: Asked) -> None:
    """One object a route, the best first."""
    for route in routes:
        say_json(
            {
                "from": write_shape(route.start),
                "to": write_shape(route.end),
                "length": route.length,
                "cost": round(route.cost, 3),
                "steps": _steps(question, route),
            }
        )


def _steps(question: Question, route: Route) -> list[dict[str, Any]]:
    names = _names(question, route)
    return [
        {"move": step.text, "shape": write_shape(step.shape), "symbol": name}
        for step, name in zip(route.steps, names[1:], strict=True)
    ]


def none_as_json(question: Question, loosening: Loosening, settled: bool) -> None:
    """One object that says why there is none; `instead` holds the routes that there would be."""
    say_json(
        {
            "from": _called(question.start),
            "to": _called(question.end),
            "unreachable": True,
            "because": because(question, loosening, settled),
            "instead": [
                {
                    "without": list(one.given_up),
                    "length": one.route.length,
                    "cost": round(one.route.cost, 3),
                    "steps": _steps(question, one.route),
                }
                for one in loosening.sets
            ],
        }
    )


def routes_as_text(question: Question, routes: list[Route], asked: Asked) -> None:
    """Each route step by step: the move, the shape, its name; what sounds otherwise, and what stays down."""
    for number, route in enumerate(routes, 1):
        print((f"{number}. " if len(routes) > 1 else "") + _heading(question, route))
        _say_steps(question, route)
        print()
    if len(routes) < asked.alternatives:
        print(f"{'No other route differs' if len(routes) == 1 else 'No more routes differ'} from what is listed.\n")


def none_as_text(question: Question, loosening: Loosening, settled: bool) -> None:
    """Why there is none, and what the first of the routes would be if its set of limits gave."""
    found = "There is no route" if settled else "No route was found"
    print(f"{found} from {_called(question.start)} to {_called(question.end)}.")
    for sentence in because(question, loosening, settled):
        print(f"  - {sentence}")
    print()
    for one in loosening.sets[:1]:
        print(f"{given_up(one.given_up, question)}:")
        _say_steps(question, one.route)
        print()


def _called(end: End) -> str:
    return write_shape(end.shapes[0]) if not end.chosen else end.text


def _heading(question: Question, route: Route) -> str:
    if not route.length:
        return f"{question.start.text} to {question.end.text}: 0 moves, {write_shape(route.start)} is both"
    moves = "1 move" if route.length == 1 else f"{route.length} moves"
    return f"{question.start.text} to {question.end.text}: {moves}, {route.cost:.2f} points"


def _names(question: Question, route: Route) -> list[str]:
    """The name of each shape; a chord that was asked for keeps the name that it was asked by."""
    key, board = question.conditions.key, question.fretboard
    found = [first_name(shape.frets, board, key) for shape in route.shapes]
    names = ["(silent)" if name is None else name.symbol for name in found]
    for index, end in ((0, question.start), (-1, question.end)):
        if end.chord is not None:
            names[index] = write(end.chord)
    return names


def _say_steps(question: Question, route: Route) -> None:
    names, shapes = _names(question, route), [write_shape(shape) for shape in route.shapes]
    moves = max((len(step.text) for step in route.steps), default=0)
    moves, wide = max(moves, len("start")), max(map(len, shapes))
    print(f"      {'start':<{moves}}  {shapes[0]:<{wide}}  {names[0]}")
    before = route.start
    for number, (step, shape, name) in enumerate(zip(route.steps, shapes[1:], names[1:], strict=True), 1):
        print(f"  {number:>2}. {step.text:<{moves}}  {shape:<{wide}}  {name}")
        print(f"      {'':<{moves}}  {_what_changes(question, before, step.shape)}")
        before = step.shape


def _what_changes(question: Question, before: Shape, after: Shape) -> str:
    board = question.fretboard

    def sound(string: int, fret: int | None) -> str:
        return "silent" if fret is None else str(Pitch.from_midi(board.sounding_midi(string, fret)))

    changed = [
        f"{board.tuning.letter(s) or s}: {sound(s, before.fret(s))} to {sound(s, after.fret(s))}"
        for s in range(board.strings, 0, -1)
        if before.fret(s) != after.fret(s)
    ]
    stay = [finger.mark for finger in after.fingers if before.press_of(finger) == after.press_of(finger)]
    kept = f"; {' and '.join(stay) if len(stay) < 3 else ', '.join(stay)} stay{'s' * (len(stay) == 1)}" if stay else ""
    return (", ".join(changed) or "nothing sounds otherwise") + kept
