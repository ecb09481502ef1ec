"""Walls to set out, the check of a layout from scratch, and every layout of a small wall.

Nothing here calls the program's own arithmetic: lengths are turned into exact fractions and
compared one by one.
"""

from fractions import Fraction
from functools import cache
from itertools import pairwise

from hypothesis import strategies as st

from trainer.roofing.sheets import Wall


def exactly(value):
    return Fraction(str(value))


def clear_between(lap, band):
    """The gap between the nearest edges of two bands, negative when they overlap."""
    (a, b), (c, d) = (tuple(map(exactly, edges)) for edges in (lap, band))
    return c - b if c >= b else a - d if a >= d else -min(b - c, d - a)


def smallest_clear(laps, bands):
    return min((clear_between(lap, band) for lap in laps for band in bands), default=None)


def assert_sound(wall, layout):
    """Covers the wall, legal widths, exact overlaps, clear of every field lap, honest counts."""
    spans = [(sheet.from_mm, sheet.from_mm + sheet.width_mm) for sheet in layout.sheets]
    assert spans[0][0] == 0 and spans[-1][1] == wall.wall_mm
    assert all(type(edge) is int for span in spans for edge in span)
    assert [(b, a) for (_, a), (b, _) in pairwise(spans)] == list(layout.laps)
    assert all(b - a == wall.side_lap_mm for a, b in layout.laps)
    widths = [b - a for a, b in spans]
    if len(widths) > 1:
        assert all(wall.min_sheet_mm <= width <= wall.sheet_mm for width in widths)
    else:
        assert 0 < widths[0] <= wall.sheet_mm
    assert layout.trimmed == sum(width < wall.sheet_mm for width in widths)
    clear = smallest_clear(layout.laps, wall.field_laps)
    assert layout.min_clear_mm == clear
    assert clear is None or clear >= exactly(wall.clear_mm)


def rank(layout):
    """What is best, smallest first: sheets, trimmed, and the clear distance turned round."""
    clear = layout.min_clear_mm
    return len(layout.sheets), layout.trimmed, None if clear is None else -clear


def every_rank(wall):
    """The rank of every legal layout of a small wall; empty when there is none."""
    if wall.wall_mm <= wall.sheet_mm:
        return {(1, int(wall.wall_mm < wall.sheet_mm), None)}
    lap = wall.side_lap_mm

    @cache
    def onward(start):
        """(sheets, trimmed, smallest clear distance) of every way from ``start`` to the end."""
        ways = set()
        for width in range(wall.min_sheet_mm, wall.sheet_mm + 1):
            trim = int(width < wall.sheet_mm)
            if start + width == wall.wall_mm:
                ways.add((1, trim, None))
            elif start + width < wall.wall_mm and legal(wall, start + width - lap):
                clear = clear_at(wall, start + width - lap)
                for sheets, trimmed, least in onward(start + width - lap):
                    both = [c for c in (clear, least) if c is not None]
                    ways.add((sheets + 1, trimmed + trim, min(both, default=None)))
        return ways

    return {(n, trimmed, None if c is None else -c) for n, trimmed, c in onward(0)}


def furthest_lap(wall):
    """The furthest legal lap start that legal sheets from 0 can reach, sheet by sheet."""
    reached, waiting = {0}, [0]
    while waiting:
        start = waiting.pop()
        for width in range(wall.min_sheet_mm, wall.sheet_mm + 1):
            following = start + width - wall.side_lap_mm
            on_the_wall = start + width <= wall.wall_mm
            if on_the_wall and following not in reached and legal(wall, following):
                reached.add(following)
                waiting.append(following)
    return max(reached)


def clear_at(wall, start):
    return smallest_clear([(start, start + wall.side_lap_mm)], wall.field_laps)


def legal(wall, start):
    clear = clear_at(wall, start)
    return clear is None or clear >= exactly(wall.clear_mm)


@st.composite
def small_walls(draw, fractions=True):
    """Walls of a few sheets, with bands on, off and across each other."""
    lap = draw(st.integers(1, 4))
    least = draw(st.integers(2 * lap, 2 * lap + 6))
    sheet = draw(st.integers(least, least + 8))
    wall = draw(st.integers(1, 60))
    number = st.integers(-10, 70)
    if fractions:
        number |= st.integers(-100, 700).map(lambda tenths: tenths / 10)
    bands = draw(st.lists(st.tuples(number, number).map(sorted).map(tuple), max_size=4))
    clear = draw(st.sampled_from([0, 0, 1, 2, 5]) | st.sampled_from([0.1, 0.5, 1.3]))
    return Wall(wall, sheet, lap, least, tuple(bands), clear if fractions else int(clear))
