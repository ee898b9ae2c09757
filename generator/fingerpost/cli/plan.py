"""Puts chords in an order in which each is a few single-finger moves from the one before: the best order there is."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from fingerpost.cli import plan_arguments
from fingerpost.cli.answer import FINE, FOUND_ERRORS, complain

if TYPE_CHECKING:
    from fingerpost.music.plans.plan import Planning

NAME = "plan"
SUMMARY = "the best order for a set of chords, one finger at a time"
EXAMPLES = """\
Every chord is met, in whichever order and shapes take the fewest moves of one finger; of these the least difficult,
then the one that climbs least. Up to twelve chords the best plan is found and proven; for more, the answer says how
few moves any plan needs at the least. Ctrl-C ends the search with the best plan so far.

examples:
  fingerpost plan C Am F G7 Dm
  fingerpost plan C Am F G7 Dm --start Em --no-bar
  fingerpost plan C G D Em --named --key G --hardest 6
  fingerpost plan --json C Am F G7 Dm | fingerpost lay-out -"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the arguments of `plan`."""
    plan_arguments.add_arguments(parser)
    parser.add_argument("--json", action="store_true", help="one JSON object on one line")


def run(args: argparse.Namespace) -> int:
    """Prints the plan: exit code 1 where there is none, 2 where the question could not be read, 130 if interrupted."""
    from fingerpost.cli import plan_options, plan_said

    planning = plan_options.read(args)
    stopped = searched(planning)
    plan = planning.plan
    if plan is None:
        if args.json:
            plan_said.none_as_json(planning)
        else:
            plan_said.none_as_text(planning)
        return 130 if stopped else FOUND_ERRORS
    (plan_said.as_json if args.json else plan_said.as_text)(planning, plan)
    return 130 if stopped else FINE


def searched(planning: Planning) -> bool:
    """Runs the search with a bar; whether it was interrupted."""
    from fingerpost.cli.progress import bar

    if planning.missing:
        return False
    try:
        with bar(f"{len(planning.wish)} chords") as shown:
            planning.tell = lambda now: shown.show(now.done, f"at least {now.bound} moves" if now.bound else "")
            planning.run()
    except KeyboardInterrupt:
        complain("Stopped before the end of the search" + ("; this is the best so far" if planning.plan else ""))
        return True
    return False
