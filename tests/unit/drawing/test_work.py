"""The wall at work: to scale in every row, each part pressed once, nothing said of dryness."""

from __future__ import annotations

import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.unit.drawing.random_figures import some_figure
from tests.unit.drawing.reading import box, classed, parsed, part, pressed, words
from trainer.drawing import draw
from trainer.errors import InputError

PX = 0.1
WALL: dict[str, Any] = {
    "kind": "wall-at-work",
    "title": "t",
    "desc": "d",
    "wall_mm": 4000,
    "height_mm": 400,
}


def drawn(**more: Any) -> Any:
    return parsed(draw(WALL | more))


@given(st.integers(0, 3000), st.integers(200, 900))
@settings(max_examples=40, deadline=None)
def test_a_sheet_stands_at_its_millimetres_and_reaches_onto_the_field(at: int, wide: int) -> None:
    sheet = {"from_mm": at, "to_mm": at + wide, "id": "sheet-0", "field_lap_mm": 120}
    left, top, right, bottom = box(part(drawn(sheets=[sheet]), "sheet-0"))
    per_mm = 342 / 4000
    assert left == pytest.approx(8 + at * per_mm, abs=PX)
    assert right - left == pytest.approx(wide * per_mm, abs=2 * PX)
    assert bottom - top == pytest.approx((400 + 120) * per_mm, abs=2 * PX)


@pytest.mark.parametrize(
    ("wall", "width", "rows"),
    [(4000, 358, 1), (4100, 358, 2), (12000, 358, 3), (12000, 720, 2), (40000, 358, 6)],
)
def test_a_long_wall_goes_on_below_in_equal_rows(wall: int, width: int, rows: int) -> None:
    band = {"from_mm": 0, "to_mm": wall, "id": "all"}
    root = drawn(wall_mm=wall, width=width, primer=[band], parts_live=True)
    (hit,) = [path.get("d") or "" for path in pressed(root, "all")]
    pieces = re.findall(r"M([\d.-]+) [\d.-]+H([\d.-]+)", hit)
    assert len(pieces) == rows
    assert {(float(a), float(b)) for a, b in pieces} == {(8.0, width - 8.0)}


def test_what_runs_over_two_rows_is_one_part() -> None:
    band = {"from_mm": 3500, "to_mm": 4500, "id": "sheet-3", "label": "4"}
    root = drawn(wall_mm=8000, sheets=[band], parts_live=True)
    assert len([e for e in root.iter() if e.get("data-part") == "sheet-3"]) == 1
    assert len(classed(part(root, "sheet-3"), "sheet")) == 2
    assert words(root).count("4") == 1


@pytest.mark.parametrize("seed", range(30))
def test_parts_have_ids_of_their_own_and_laps_are_a_thumb_wide(seed: int) -> None:
    root = parsed(draw(some_figure("wall-at-work", seed) | {"parts_live": True}))
    ids = [e.get("data-part") for e in root.iter() if e.get("data-part")]
    assert len(ids) == len(set(ids))


def test_a_lap_is_pressed_44_wide_where_its_neighbours_let_it() -> None:
    laps = [{"from_mm": x, "to_mm": x + 100, "id": f"lap-{x}"} for x in (1000, 2000)]
    left, top, right, bottom = box(pressed(drawn(laps=laps, parts_live=True), "lap-1000"))
    assert right - left == pytest.approx(44, abs=2 * PX) and bottom - top >= 44 - PX


def test_the_sheet_laid_last_has_its_edge_on_top() -> None:
    lap = {"from_mm": 1000, "to_mm": 1100, "state": "closed"}
    for more, at in (({}, 1000), ({"left_on_top": True}, 1100)):
        svg = draw(WALL | {"laps": [lap | more]})
        edge = re.search(r'd="M([\d.]+) [\d.-]+V[\d.-]+" stroke-width="1.8"', svg)
        assert edge and float(edge[1]) == pytest.approx(8 + at * 342 / 4000, abs=PX)


def test_an_unrolled_sheet_and_an_open_edge_are_seen_and_explained() -> None:
    sheet = {"from_mm": 0, "to_mm": 900, "rolled": False}
    root = drawn(sheets=[sheet], rail=False)
    assert classed(root, "loose") and classed(root, "no-rail")
    assert {"not rolled yet", "no edge protection"} <= set(words(root))
    root = drawn(sheets=[sheet | {"rolled": True}])
    assert not classed(root, "loose") and not classed(root, "no-rail")


def test_primer_has_no_age() -> None:
    with pytest.raises(InputError, match=r"primer\[0\]\.age"):
        draw(WALL | {"primer": [{"from_mm": 0, "to_mm": 900, "age": "dry"}]})
    band = {"from_mm": 0, "to_mm": 3000, "label": "primed 09:12"}
    told = words(drawn(primer=[band]))
    assert "primed 09:12" in told and not any("dry" in text or "wet" in text for text in told)


def test_a_stretch_too_short_for_its_label_bears_the_short_one() -> None:
    band = {"from_mm": 0, "to_mm": 600, "label": "primed 09:12–09:40", "short": "09:12"}
    assert "09:12" in words(drawn(primer=[band]))
    assert "primed 09:12–09:40" in words(drawn(primer=[band | {"to_mm": 3000}]))


@pytest.mark.parametrize(
    ("slit", "sign"), [("open", "open"), ("filled", "closed"), ("gusset", "welded")]
)
def test_a_corner_bears_the_round_sign_of_its_slit(slit: str, sign: str) -> None:
    corner = {"end": "right", "leg_mm": 500, "id": "corner-0", "slit": slit, "label": "inside"}
    root = drawn(corners=[corner])
    assert sign in words(root) and "inside" in words(root)
    assert len(classed(root, "gusset")) == (slit == "gusset")


def test_a_page_may_call_parts_otherwise_and_leave_the_others_quiet() -> None:
    plan = {
        "kind": "roof-plan",
        "title": "t",
        "desc": "d",
        "parts_live": True,
        "walls": [
            {
                "faces": [[0, 0], [3000, 0], [3000, -2000]],
                "thickness_mm": 240,
                "roof_side": "right",
                "legs": ["A", "B"],
            }
        ],
        "things": [{"kind": "cylinder", "at": [500, -900]}, {"kind": "can", "at": [900, -900]}],
    }
    root = parsed(
        draw(
            plan
            | {
                "places": {"leg-0-1": "wall-B", "cylinder-0": "gas"},
                "said": {"cylinder-0": "the gas"},
            }
        )
    )
    found = {e.get("data-part"): e.get("aria-label") for e in classed(root, "part")}
    assert found == {"wall-B": "B", "gas": "the gas"}
    assert {"A", "B"} <= set(words(root))
