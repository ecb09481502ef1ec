"""What lies and stands on the roof plan: to scale, countable, pressed with a thumb."""

from __future__ import annotations

from math import hypot
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.unit.drawing.reading import SVG, box, classed, parsed, part, points, pressed, words
from trainer.drawing import draw
from trainer.drawing.plan_site_data import COMBUSTIBLES, OBSTACLES
from trainer.drawing.symbols import symbol

PX = 0.1
FRAME = [[0, 0], [6000, 0]]
PER_MM = 342 / 6480
"""358 wide less margins, over 6000 mm and the air of 4 per cent at both ends."""


def plan(**more: Any) -> dict[str, Any]:
    return {"kind": "roof-plan", "title": "t", "desc": "d", "edges": [FRAME], **more}


@given(st.integers(0, 5000), st.integers(0, 4000), st.integers(200, 900), st.integers(200, 900))
@settings(max_examples=40, deadline=None)
def test_obstacles_have_their_size_and_place(left: int, low: int, wide: int, deep: int) -> None:
    thing = {"kind": "plant", "from": [left + wide, low], "to": [left, low + deep]}
    figure = plan(obstacles=[thing], extent=[[0, -200], [6000, 5000]])
    x0, y0, x1, y1 = box(part(parsed(draw(figure)), "obstacle-0"))
    per_mm = 342 / 6000
    assert x0 == pytest.approx(8 + left * per_mm, abs=PX)
    assert x1 - x0 == pytest.approx(wide * per_mm, abs=2 * PX)
    assert y1 - y0 == pytest.approx(deep * per_mm, abs=2 * PX)


def test_every_obstacle_is_told_by_its_hatch_alone() -> None:
    rects = [
        {"kind": kind, "from": [i * 1200, 500], "to": [i * 1200 + 900, 1400]}
        for i, kind in enumerate(OBSTACLES)
    ]
    root = parsed(draw(plan(obstacles=rects)))
    fills = [
        next(p.get("fill") for p in part(root, f"obstacle-{i}").iter(f"{SVG}path") if _hatched(p))
        for i in range(len(OBSTACLES))
    ]
    assert len(set(fills)) == len(OBSTACLES)


def _hatched(path: Any) -> bool:
    return "url(" in (path.get("fill") or "")


def test_combustibles_and_openings_have_symbols_of_their_own() -> None:
    names = [*COMBUSTIBLES, "opening, open", "opening, covered"]
    assert len({symbol(name, (0, 0)) for name in names}) == len(names)


def test_a_way_is_measured_leg_by_leg() -> None:
    way = {"points": [[0, 0], [3000, 0], [3000, 4000], [6000, 8000]], "label": "A"}
    assert "A, 12000\u00a0mm" in words(parsed(draw(plan(ways=[way]))))  # 3000 + 4000 + 5000


@pytest.mark.parametrize(("measured", "before", "after"), [("after", 0, 1), ("never", 0, 0)])
def test_a_ways_length_waits_for_the_answer(measured: str, before: int, after: int) -> None:
    figure = plan(ways=[{"points": [[0, 0], [3000, 0]], "label": "A", "measured": measured}])
    assert _told("A, 3000\u00a0mm", figure) == before
    assert _told("A, 3000\u00a0mm", figure | {"after": []}) == after


def _told(text: str, figure: dict[str, Any]) -> int:
    return words(parsed(draw(figure))).count(text)


def test_a_way_overlay_bears_foot_ticks_and_its_sign() -> None:
    way = {"type": "way", "path": [[0, 0], [2000, 0], [2000, 1500]], "text": "too far", "ok": False}
    root = parsed(draw(plan(after=[way])))
    assert len(classed(root, "way-walk")) == 1 and "too far" in words(root)
    assert len(classed(root, "sign")) == 1


def _hidden(root: Any) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    data = "".join([path.get("d") or "" for path in classed(root, "under")])
    found = points(data)
    return list(zip(found[::2], found[1::2], strict=True))


def test_an_edge_under_a_later_sheet_is_dashed_just_there() -> None:
    lap, wide = 100, 1000
    sheets = [{"from": [0, 0], "to": [wide, 2000]}, {"from": [wide - lap, 0], "to": [1900, 2000]}]
    frame = {"edges": [], "extent": [[0, 0], [3420, 2000]]}
    runs = _hidden(parsed(draw(plan(laid=sheets, **frame))))
    ((a, b),) = runs  # only the right edge of the first sheet lies under the second
    assert a[0] == b[0] == pytest.approx(8 + 100, abs=PX)
    assert abs(a[1] - b[1]) == pytest.approx(200, abs=2 * PX)


@given(st.lists(st.tuples(st.integers(0, 30), st.integers(0, 20)), min_size=2, max_size=6))
@settings(max_examples=60, deadline=None)
def test_plies_counted_by_the_dashes_are_the_sheets_that_lie_there(
    corners: list[tuple[int, int]],
) -> None:
    """Along every sheet's edges: dashed where, and only where, a later sheet lies over it."""
    rects = [(x * 100, y * 100, x * 100 + 1000, y * 100 + 900) for x, y in corners]
    sheets = [{"from": [x0, y0], "to": [x1, y1]} for x0, y0, x1, y1 in rects]
    figure = plan(laid=sheets, edges=[], extent=[[-10, -10], [4090, 2990]])
    per_mm, runs = 342 / 4100, _hidden(parsed(draw(figure)))
    for i, (x0, y0, x1, y1) in enumerate(rects):
        for x, y in ((x0, y0 + 450 + 13), (x1, y0 + 450 + 13), (x0 + 513, y0), (x0 + 513, y1)):
            over = any(a < x < c and b < y < d for a, b, c, d in rects[i + 1 :])
            at = (8 + (x + 10) * per_mm, (2990 - y) * per_mm)
            if over:
                assert any(_on(at, run) for run in runs)


def _on(at: tuple[float, float], run: tuple[tuple[float, float], tuple[float, float]]) -> bool:
    (x0, y0), (x1, y1) = run
    across = min(x0, x1) - 0.2 <= at[0] <= max(x0, x1) + 0.2
    return across and min(y0, y1) - 0.2 <= at[1] <= max(y0, y1) + 0.2


def test_a_spots_dot_stands_on_its_point_and_its_ring_is_pressed() -> None:
    spots = [{"at": [1000, 1000]}, {"at": [3000, 1000]}, {"at": [3000, 2500], "label": "X"}]
    root = parsed(draw(plan(spots=spots, parts_live=True)))
    dots = [points((d.get("d") or "").partition("h")[0])[0] for d in classed(root, "spot")]
    assert hypot(dots[1][0] - dots[0][0], dots[1][1] - dots[0][1]) == pytest.approx(
        2000 * PER_MM, abs=3 * PX
    )
    assert {"A", "B", "X"} <= set(words(root))
    for i, (x, y) in enumerate(dots):
        left, top, right, bottom = box(pressed(root, f"spot-{i}"))
        assert right - left >= 44 - PX and bottom - top >= 44 - PX
        assert left <= x <= right and top <= y <= bottom


def test_a_bent_flame_ends_where_it_is_said() -> None:
    torch = {"kind": "torch", "at": [2000, 1000], "towards": [2000, 0], "bent_to": [2600, 900]}
    root = parsed(draw(plan(things=[torch], extent=[[0, 0], [6000, 3000]])))
    flame = classed(root, "bent")[0].get("d") or ""
    numbers = [float(n) for n in flame.partition("C")[2].partition("C")[0].split()]
    assert numbers[-2:] == pytest.approx([8 + 2600 * 342 / 6000, 2100 * 342 / 6000], abs=PX)


def test_what_a_person_has_in_hand_is_in_the_key() -> None:
    people = [
        {"kind": "person", "at": [900 * i, 500], "holds": h}
        for i, h in enumerate(("torch", "watch"))
    ]
    told = words(parsed(draw(plan(things=people))))
    assert {"holds a torch", "keeps watch"} <= set(told)
