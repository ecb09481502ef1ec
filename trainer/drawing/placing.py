"""Where a label can stand: boxes that are taken, and the first of some spots that is free."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from trainer.drawing.markup import Box, Point

_AIR = 2.0
"""Clear space kept round every label."""

_Line = tuple[Box, float, float, float, float, float]
"""The box a line lies in, where it begins, how far it goes across and down, its half width."""

_SIDES = ((0, -1), (1, 0), (-1, 0), (0, 1), (1, -1), (-1, -1), (1, 1), (-1, 1))


class Placer:
    """Keeps what is taken on the drawing and finds room for more.

    ``left`` and ``right`` bound every label; up and down the drawing grows as it must.
    """

    __slots__ = ("left", "lines", "right", "taken")

    def __init__(self, left: float, right: float) -> None:
        self.left = left
        self.right = right
        self.taken: list[Box] = []
        self.lines: list[_Line] = []

    def take(self, box: Box) -> None:
        """Keep labels off ``box`` for good: a label or a symbol stands there."""
        self.taken.append(box)

    def avoid(self, box: Box) -> None:
        """Keep labels off ``box`` while there is room elsewhere: it is full of lines."""
        self.lines.append((box, 0.0, 0.0, 0.0, 0.0, 0.0))

    def avoid_line(self, a: Point, b: Point, pad: float = 2.0) -> None:
        """Keep labels off the line from ``a`` to ``b`` while there is room elsewhere."""
        (x0, y0), (x1, y1) = a, b
        left, right = (x0, x1) if x0 < x1 else (x1, x0)
        top, bottom = (y0, y1) if y0 < y1 else (y1, y0)
        reach = (left - pad, top - pad, right + pad, bottom + pad)
        self.lines.append((reach, x0, y0, x1 - x0, y1 - y0, pad))

    def free(self, box: Box, lines_too: bool = True) -> bool:
        """Whether nothing stands in ``box`` and it lies between left and right."""
        if box[0] < self.left or box[2] > self.right or not _clear(box, self.taken):
            return False
        return not lines_too or not self.crossings(box, 1)

    def spot(self, width: float, height: float, corners: Iterable[Point]) -> Box | None:
        """The first box of this size, by top left corner, that is free; else free of labels only.

        Of boxes that lines cross, the one that the fewest cross.
        """
        crossed: list[Box] = []
        for x, y in corners:
            x = min(max(x, self.left), self.right - width)
            box = (x, y, x + width, y + height)
            if _clear(box, self.taken):
                if not self.crossings(box, 1):
                    return box
                crossed.append(box)
        return min(crossed, key=self.crossings, default=None)

    def crossings(self, box: Box, enough: int = 1000) -> int:
        """How many lines run through ``box``; counted no further than ``enough``."""
        left, top, right, bottom = box
        found = 0
        for (x0, y0, x1, y1), x, y, dx, dy, pad in self.lines:
            if left < x1 and x0 < right and top < y1 and y0 < bottom:
                if dx and dy and not _both_sides(box, x, y, dx, dy, pad):
                    continue
                found += 1
                if found == enough:
                    break
        return found

    def near(self, anchor: Box, width: float, height: float) -> Box:
        """A free box beside ``anchor``, as near as can be; straight down in the last resort."""
        found = self.spot(width, height, beside(anchor, width, height))
        return found or self.below(anchor, width, height)

    def below(self, anchor: Box, width: float, height: float) -> Box:
        """The first free box under ``anchor``: there is always one."""
        x = min(max((anchor[0] + anchor[2] - width) / 2, self.left), self.right - width)
        y = anchor[3] + _AIR
        while not _clear((x, y, x + width, y + height), self.taken):
            y += height / 2
        return (x, y, x + width, y + height)


def beside(anchor: Box, width: float, height: float) -> Iterator[Point]:
    """Top left corners of boxes round ``anchor``, nearest first."""
    left, top, right, bottom = anchor
    for gap in (3.0, 14.0, 28.0, 44.0, 64.0, 88.0):
        for dx, dy in _SIDES:
            yield (
                _beyond(dx, left, right, width, gap),
                _beyond(dy, top, bottom, height, gap),
            )


def _beyond(side: int, low: float, high: float, size: float, gap: float) -> float:
    if side < 0:
        return low - gap - size
    return high + gap if side else (low + high - size) / 2


def _both_sides(box: Box, x: float, y: float, dx: float, dy: float, pad: float) -> bool:
    """Whether corners of ``box``, wider by ``pad``, lie on both sides of a slanting line."""
    across, down = (box[0] - pad - x, box[2] + pad - x), (box[1] - pad - y, box[3] + pad - y)
    sides = [u * dy - v * dx for u in across for v in down]
    return min(sides) <= 0 <= max(sides)


def _clear(box: Box, others: Sequence[Box]) -> bool:
    left, top, right, bottom = box[0] - _AIR, box[1] - _AIR, box[2] + _AIR, box[3] + _AIR
    for x0, y0, x1, y1 in others:
        if left < x1 and x0 < right and top < y1 and y0 < bottom:
            return False
    return True


def spread(wanted: Sequence[float], sizes: Sequence[float], low: float, high: float) -> list[float]:
    """Starts of segments laid one after the other, as near as can be to where they are ``wanted``.

    ``wanted`` are the middles asked for, in rising order. The segments keep their order, never
    overlap and lie between ``low`` and ``high``; where together they are too long, past ``high``.
    Least squares under an order: pool adjacent violators.
    """
    offsets: list[float] = []
    total = 0.0
    groups: list[tuple[float, int]] = []
    for middle, size in zip(wanted, sizes, strict=True):
        mean, count = middle - size / 2 - total, 1
        offsets.append(total)
        total += size
        while groups and groups[-1][0] > mean:
            before, number = groups.pop()
            mean = (mean * count + before * number) / (count + number)
            count += number
        groups.append((mean, count))
    flat = [mean for mean, count in groups for _ in range(count)]
    last = max(low, high - total)
    return [min(max(mean, low), last) + offset for mean, offset in zip(flat, offsets, strict=True)]
