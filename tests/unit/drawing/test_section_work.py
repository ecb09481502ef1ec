"""What is added to, put on or seen round the parapet of a section: to scale, told apart."""

from __future__ import annotations

from itertools import pairwise
from math import sqrt
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.unit.drawing.reading import box, classed, parsed, part, points, pressed, words
from trainer.drawing import draw
from trainer.drawing.section_solids import HATCHES
from trainer.errors import InputError
from trainer.roofing.substrate import BURNS

PX = 0.1


def section(**more: Any) -> dict[str, Any]:
    return {
        "kind": "parapet-section",
        "title": "t",
        "desc": "d",
        "height_mm": 400,
        "width_mm": 300,
        "deck": {"material": "concrete", "thickness_mm": 160},
        "core": "concrete",
        **more,
    }


def scale_of(root: Any, width: float = 300) -> tuple[float, float, float]:
    """User units for a millimetre, the x of the wall's face and the y of the roof surface."""
    left, _, right, _ = box(part(root, "core"))
    per_mm = (right - left) / width
    return per_mm, left, box(part(root, "core"))[1] + 400 * per_mm


@given(st.integers(20, 150), st.integers(20, 150))
@settings(max_examples=40, deadline=None)
def test_added_layers_stand_on_the_old_surface_up_to_the_roof_surface(low: int, high: int) -> None:
    added = [
        {"material": "foam", "thickness_mm": low},
        {"material": "timber", "thickness_mm": high},
    ]
    root = parsed(draw(section(added=added, dimensions=["height", "height_old"])))
    per_mm, _, surface = scale_of(root)
    first, second = box(part(root, "added-0")), box(part(root, "added-1"))
    assert second[1] == pytest.approx(surface, abs=3 * PX)
    assert first[1] == pytest.approx(second[3], abs=PX)
    assert first[3] - first[1] == pytest.approx(low * per_mm, abs=3 * PX)
    assert second[3] - second[1] == pytest.approx(high * per_mm, abs=3 * PX)
    old = points(classed(root, "old-surface")[0].get("d") or "")
    assert old[0][1] == pytest.approx(first[3], abs=PX)
    assert {"400\u00a0mm", f"{400 + low + high}\u00a0mm"} <= set(words(root))


def test_heights_are_measured_from_the_finished_surface() -> None:
    """By hand: 400 - 60 = 340 to the top, 220 - 60 = 160 of flashing, 1100 - 60 = 1040 of rail."""
    root = parsed(
        draw(
            section(
                finish={"material": "ballast", "thickness_mm": 60},
                flashing={"field_lap_mm": 100, "up_mm": 220},
                guardrail={"height_mm": 1100},
                dimensions=["height_new", "flashing_height", "guardrail"],
            )
        )
    )
    assert {"340\u00a0mm", "160\u00a0mm", "1040\u00a0mm"} <= set(words(root))


def _sheet(root: Any) -> list[tuple[float, float]]:
    return points(classed(part(root, "flashing"), "sheet")[0].get("d") or "")


@pytest.mark.parametrize("cant", [0, 75])
@pytest.mark.parametrize("gap", [15, 40, 90])
def test_a_bridging_sheet_pressed_home_draws_its_edge_back(cant: int, gap: int) -> None:
    """Two faces of the gap less the chord across it: gap × (2 - √2), as `calc bridging` has it."""
    figure = section(flashing={"field_lap_mm": 120, "up_mm": 300}, bridge={"gap_mm": gap})
    if cant:
        figure["cant"] = {"leg_mm": cant, "material": "mineral"}
    before, after = parsed(draw(figure)), parsed(draw(figure | {"after": []}))
    per_mm, face, _ = scale_of(before)
    assert _sheet(before)[0][0] == pytest.approx(face - (cant + 120) * per_mm, abs=3 * PX)
    lost = (_sheet(after)[0][0] - _sheet(before)[0][0]) / per_mm
    assert lost == pytest.approx(gap * (2 - sqrt(2)), abs=0.8)
    toe, head = _sheet(before)[1:3]
    assert face - toe[0] == pytest.approx((cant + gap) * per_mm, abs=3 * PX)
    assert toe[1] - head[1] == pytest.approx(head[0] - toe[0], abs=2 * PX)  # 45°
    assert not classed(before, "drawn-back") and len(classed(after, "drawn-back")) == 1
    assert part(before, "hollow") is not None


def test_every_material_of_the_substrate_gate_has_its_own_hatch() -> None:
    assert set(BURNS) <= set(HATCHES)
    assert len({HATCHES[material] for material in BURNS}) == len(BURNS)


WALL = [
    {"material": "wood fibre", "thickness_mm": 18},
    {"material": "timber framing", "thickness_mm": 140},
    {"material": "cavity", "thickness_mm": 50, "open": True},
    {"material": "masonry", "thickness_mm": 112, "label": "veneer"},
]


def layered(**more: Any) -> dict[str, Any]:
    figure = section(layers=WALL, width_mm=320, **more)
    del figure["core"]
    return figure


def test_layers_of_the_wall_stand_side_by_side_at_one_scale() -> None:
    root = parsed(draw(layered()))
    boxes = [box(part(root, f"layer-{i}")) for i in range(len(WALL))]
    per_mm = (boxes[-1][2] - boxes[0][0]) / 320
    for layer, (left, _, right, _) in zip(WALL, boxes, strict=True):
        assert right - left == pytest.approx(layer["thickness_mm"] * per_mm, abs=3 * PX)  # type: ignore[operator]


def test_layers_are_pressed_side_by_side_too() -> None:
    """No layer's place to press lies on another's, and a thin one is given some more."""
    root = parsed(draw(layered(parts_live=True)))
    hits = [box(pressed(root, f"layer-{i}")) for i in range(len(WALL))]
    assert all(a[2] <= b[0] + PX for a, b in pairwise(hits))
    thin = box(part(root, "layer-0"))
    assert hits[0][2] - hits[0][0] > 2.5 * (thin[2] - thin[0])


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"width_mm": 300}, "width_mm: got 300; allowed: the layers together \\(320\\)"),
        ({"core": "concrete"}, "layers: got 4; allowed: none where core is given"),
        ({"nailer_mm": 40}, "layers\\[2\\].open: got true; allowed: false where a nailer"),
    ],
)
def test_a_wall_of_layers_that_cannot_be_is_refused(change: dict[str, Any], said: str) -> None:
    with pytest.raises(InputError, match=said):
        draw(layered() | change)


def test_a_wall_needs_a_core_or_layers() -> None:
    figure = section()
    del figure["core"]
    with pytest.raises(InputError, match="core: missing"):
        draw(figure)


def test_a_detail_shows_the_section_so_many_times_larger() -> None:
    figure = section(
        flashing={"field_lap_mm": 100}, detail={"at": [0, 0], "radius_mm": 60, "times": 4}
    )
    root = parsed(draw(figure))
    per_mm, _, _ = scale_of(root)
    lens = classed(root, "lens")[0]
    sheet = points(classed(lens, "sheet")[0].get("d") or "")
    assert sheet[1][0] - sheet[0][0] == pytest.approx(100 * per_mm * 4, abs=6)
    assert not [e for e in lens.iter() if e.get("data-shape")]


def test_overlays_in_the_detail_are_drawn_there_at_its_scale() -> None:
    line = {"type": "dimension", "from": [-40, 10], "to": [0, 10], "text": "40 mm", "ok": True}
    figure = section(detail={"at": [0, 0], "radius_mm": 60, "times": 4})
    root = parsed(draw(figure | {"after": [line]}))
    per_mm, _, _ = scale_of(root)
    drawn = [points(p.get("d") or "") for p in root.iter() if p.get("stroke-opacity") == ".8"]
    assert drawn[-1][1][0] - drawn[-1][0][0] == pytest.approx(160 * per_mm, abs=3 * PX)
    assert words(root).count("40 mm") == 1


def test_sun_and_shade_are_told_by_sign_and_key() -> None:
    faces = [{"face": "wall", "label": "52 °C", "sun": True}, {"face": "field", "sun": False}]
    root = parsed(draw(section(faces=faces, parts_live=True)))
    assert {"52 °C", "in the sun", "in the shade"} <= set(words(root))
    left, top, right, bottom = box(pressed(root, "face-wall"))
    assert right - left >= 44 - PX and bottom - top >= 44 - PX


def test_the_drop_is_measured_since_it_is_broken_off() -> None:
    assert "7400\u00a0mm" in words(parsed(draw(section(drop_mm=7400))))


def test_the_roof_surface_seen_beyond_lies_at_its_height() -> None:
    root = parsed(draw(section(beyond_mm=120)))
    per_mm, _, surface = scale_of(root)
    line = points(classed(root, "beyond")[0].get("d") or "")
    assert surface - line[0][1] == pytest.approx(120 * per_mm, abs=3 * PX)
    assert "roof surface beyond" in words(root)
