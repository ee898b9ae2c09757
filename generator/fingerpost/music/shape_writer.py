"""Writes a shape as text, in the form that `shape_text` describes."""

from __future__ import annotations

from fingerpost.music.shape import Press, Shape


def write_shape(shape: Shape, fingers: bool = True, hidden: bool = True) -> str:
    """The text of a shape, which reads back as the same shape.

    fingers False leaves out all after the frets; hidden False leaves out the third part, for readers who know only
    the first two. A shape whose fingers are not all known, or that no finger touches, is written without them.
    """
    frets = ["x" if fret is None else str(fret) for fret in reversed(shape.frets)]
    text = ("-" if any(len(fret) > 1 for fret in frets) else "").join(frets)
    if not (fingers and shape.presses and shape.has_fingers):
        return text
    text += "/" + "".join(_mark(shape, string) for string in range(shape.strings, 0, -1))
    items = [_item(press) for press in shape.presses if _shown(shape, press) != (press.low, press.high)]
    items += [f"x={string}" for string, _ in shape.damped if string in shape.unstruck]
    return text + ("/" + ",".join(sorted(items)) if hidden and items else "")


def _mark(shape: Shape, string: int) -> str:
    damper = next((finger for damped, finger in shape.damped if damped == string), None)
    if damper is not None:
        return damper.mark
    press = None if string in shape.unstruck else shape.sounding_press(string)
    return "-" if press is None or press.finger is None else press.finger.mark


def _shown(shape: Shape, press: Press) -> tuple[int, int] | None:
    """The outermost strings on which the marks show this press, None where they do not show it at all."""
    seen = [s for s in press.strings if shape.fret(s) is not None and shape.sounding_press(s) == press]
    return (seen[0], seen[-1]) if seen else None


def _item(press: Press) -> str:
    assert press.finger is not None
    end = f"-{press.high}:{press.fret}" if press.is_bar else ""
    return f"{press.finger.mark}={press.low}:{press.fret}{end}"
