"""Numbers, points and text as SVG markup: the same bytes on every machine."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from math import sqrt

Point = tuple[float, float]
Box = tuple[float, float, float, float]
"""Left, top, right, bottom in user units (y down)."""

_ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;"})


def num(value: float) -> str:
    """``value`` to 0.1, as every coordinate is written."""
    return f"{value:.1f}"


def ratio(value: float) -> str:
    """``value`` to six significant digits, for factors a script multiplies by."""
    return f"{value:.6g}"


@lru_cache(maxsize=2048)
def escaped(text: str) -> str:
    """``text`` safe inside an element and inside a double-quoted attribute."""
    return text.translate(_ESCAPES)


def path(points: Iterable[Point], closed: bool = False) -> str:
    """Path data through ``points``."""
    data = "L".join(["%.1f %.1f" % point for point in points])  # noqa: UP031 (a fifth faster)
    return f"M{data}Z" if closed else f"M{data}"


def rect_path(box: Box) -> str:
    """Path data round ``box``."""
    left, top, right, bottom = box
    return f"M{left:.1f} {top:.1f}H{right:.1f}V{bottom:.1f}H{left:.1f}Z"


def grown(box: Box, by: float) -> Box:
    """``box`` larger by ``by`` on every side."""
    left, top, right, bottom = box
    return (left - by, top - by, right + by, bottom + by)


def around(points: Sequence[Point]) -> Box:
    """The smallest box that holds ``points``."""
    xs = [x for x, _ in points]
    ys = [y for _, y in points]
    return (min(xs), min(ys), max(xs), max(ys))


def centre(box: Box) -> Point:
    """The middle of ``box``."""
    return ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)


def distance(a: Point, b: Point) -> float:
    """How far ``a`` lies from ``b``; by square root alone, which is the same on every machine."""
    across, up = b[0] - a[0], b[1] - a[1]
    return sqrt(across * across + up * up)


def direction(a: Point, b: Point) -> Point:
    """The unit vector from ``a`` to ``b``; to the right when they coincide."""
    far = distance(a, b)
    return ((b[0] - a[0]) / far, (b[1] - a[1]) / far) if far else (1.0, 0.0)


def along(a: Point, b: Point, share: float) -> Point:
    """The point ``share`` of the way from ``a`` to ``b``."""
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
