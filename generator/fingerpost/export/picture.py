"""A picture as PNG, made from its SVG by an optional library."""

from __future__ import annotations

WIDTH = 1200
WIDEST = 8000


class PngUnavailable(RuntimeError):  # noqa: N818 - it says what is missing
    """The library that makes PNG files is not installed; the text says how to get it."""


def png(svg: str, width: int = WIDTH) -> bytes:
    """The SVG file as a PNG image that many pixels wide. Raises PngUnavailable; ValueError for a width out of bounds.

    The words in it are set in a sans-serif font of the machine; a machine without any font leaves them out.
    """
    if not 1 <= width <= WIDEST:
        raise ValueError(f"a picture {width} pixels wide; expected 1 to {WIDEST}")
    try:
        import resvg_py
    except ImportError as missing:
        raise PngUnavailable(
            "making PNG pictures needs the extra `png`: python -m pip install 'fingerpost[png]' (SVG needs nothing)"
        ) from missing
    return bytes(resvg_py.svg_to_bytes(svg_string=svg, width=width))
