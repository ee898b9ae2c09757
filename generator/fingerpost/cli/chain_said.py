"""Chains of chords as a person reads them, and as JSON."""

from __future__ import annotations

from fingerpost.cli.answer import say_json
from fingerpost.cli.chain_options import Asked
from fingerpost.music.plain_name import plain_name
from fingerpost.music.plans.long_chain import LongChain
from fingerpost.music.routes.route import Route, route_of
from fingerpost.music.shape import Shape
from fingerpost.music.shape_text import write_shape


def as_json(asked: Asked, found: LongChain) -> None:
    """One object; `length` counts chords, `bound` is how many any chain could have at the most."""
    route = route_of(asked.graph.neck, found.chain)
    names = _names(asked, route)
    say_json(
        {
            "chords": names,
            "length": found.chords,
            "cost": round(route.cost, 3),
            "bound": found.bound,
            "proven": found.proven,
            "from": write_shape(route.start),
            "steps": [
                {"move": step.text, "shape": write_shape(step.shape), "symbol": name, "passing": False}
                for step, name in zip(route.steps, names[1:], strict=True)
            ],
        }
    )


def as_text(asked: Asked, found: LongChain) -> None:
    """How long the chain is, what is known of longer ones, and its steps."""
    route = route_of(asked.graph.neck, found.chain)
    names, shapes = _names(asked, route), [write_shape(shape) for shape in route.shapes]
    print(f"{_counted(found.chords)}, {route.cost:.2f} points")
    print(f"{_quality(found, asked.length)}\n")
    moves = max([len("start"), *(len(step.text) for step in route.steps)])
    wide = max(map(len, shapes))
    print(f"      {'start':<{moves}}  {shapes[0]:<{wide}}  {names[0]}")
    for number, (step, shape, name) in enumerate(zip(route.steps, shapes[1:], names[1:], strict=True), 1):
        print(f"  {number:>2}. {step.text:<{moves}}  {shape:<{wide}}  {name}")
    print()


def _quality(found: LongChain, length: int) -> str:
    easier = "no chain of this length is easier" if found.exact else "an easier one may exist"
    if found.chords == length:
        return f"{easier[:1].upper()}{easier[1:]}."
    if found.proven:
        return f"No chain is longer; {easier}."
    return f"The longest that was found; none has more than {_counted(found.bound)}."


def _names(asked: Asked, route: Route) -> list[str]:
    return [_name(asked, shape) for shape in route.shapes]


def _name(asked: Asked, shape: Shape) -> str:
    name = plain_name(shape.frets, asked.graph.neck.fretboard, asked.graph.conditions.key)
    return "" if name is None else name.symbol


def _counted(number: int) -> str:
    return f"{number} chord{'s' * (number != 1)}"
