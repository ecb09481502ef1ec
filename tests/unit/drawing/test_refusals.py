"""Figures that cannot be drawn: one line that names the field, the value and what is allowed."""

from __future__ import annotations

from typing import Any

import pytest

from tests.unit.drawing.random_figures import KINDS, some_figure
from trainer.drawing import draw
from trainer.errors import InputError

SECTION: dict[str, Any] = {
    "height_mm": 300,
    "width_mm": 250,
    "deck": {"material": "concrete", "thickness_mm": 160},
    "core": "concrete",
}
ELEVATION: dict[str, Any] = {"wall_mm": 3000, "height_mm": 300}
PLAN: dict[str, Any] = {"edges": [[[0, 0], [3000, 0]]]}
FLAT: dict[str, Any] = {"outline": [[0, 0], [900, 0], [900, 600]]}
TIME: dict[str, Any] = {"from_min": 420, "to_min": 600}
BASE = dict(zip(KINDS, (SECTION, ELEVATION, PLAN, FLAT, TIME), strict=True))

BAD: list[tuple[str, dict[str, Any], str]] = [
    ("parapet-section", {"height_mm": 0}, "height_mm: got 0"),
    ("parapet-section", {"height_mm": "300"}, 'height_mm: got "300"'),
    ("parapet-section", {"height_mm": float("nan")}, "height_mm: got NaN"),
    ("parapet-section", {"height_mm": True}, "height_mm: got true"),
    ("parapet-section", {"core": "straw"}, 'core: got "straw"; allowed: "masonry"'),
    ("parapet-section", {"deck": {"material": "steel"}}, "deck.thickness_mm: missing"),
    ("parapet-section", {"cant": {"leg_mm": 400, "material": "mineral"}}, "cant.leg_mm: got 400"),
    ("parapet-section", {"nailer_mm": 300}, "nailer_mm: got 300; allowed: < height_mm"),
    ("parapet-section", {"foam": {"thickness_mm": 230}}, "width_mm: got 250"),
    ("parapet-section", {"void": {"from_mm": 90, "to_mm": 80}}, "void.to_mm: got 80"),
    ("parapet-section", {"vent": {"from_mm": 90, "to_mm": 380}}, "vent.to_mm: got 380"),
    ("parapet-section", {"dimensions": ["depth"]}, 'dimensions[0]: got "depth"'),
    ("parapet-section", {"field_sheets": 1.5}, "field_sheets: got 1.5"),
    (
        "parapet-section",
        {"flashing": {"field_lap_mm": 100, "up_mm": 350}},
        "flashing.up_mm: got 350",
    ),
    (
        "parapet-section",
        {"flashing": {"field_lap_mm": 100, "top_mm": 100, "outer_drop_mm": 50}},
        "flashing.outer_drop_mm: got 50",
    ),
    (
        "parapet-section",
        {
            "flashing": {"field_lap_mm": 100, "bridging_mm": 20},
            "cant": {"leg_mm": 50, "material": "foam"},
        },
        "flashing.bridging_mm: got 20",
    ),
    ("wall-elevation", {"laps": [{"from_mm": 90, "to_mm": 80}]}, "laps[0].to_mm: got 80"),
    ("wall-elevation", {"laps": [{"from_mm": 4000, "to_mm": 4100}]}, "laps[0].from_mm: got 4000"),
    ("wall-elevation", {"laps": [{"from_mm": 0}]}, "laps[0].to_mm: missing"),
    ("wall-elevation", {"laps": [[0, 100]]}, "laps[0]: got [0, 100]"),
    ("wall-elevation", {"field_mm": 100, "field_lap_mm": 150}, "field_lap_mm: got 150"),
    (
        "wall-elevation",
        {"movable": {"lap": 3, "range": {"min": 0, "max": 9}}},
        "movable.lap: got 3",
    ),
    ("wall-elevation", {"movable": {"range": {"min": 0, "max": 9}}}, "movable: got"),
    ("wall-elevation", {"primer": [{"from_mm": 0, "to_mm": 9}]}, "primer[0].age: missing"),
    ("wall-elevation", {"walls": 2}, "walls: got 2; allowed: no such field"),
    ("roof-plan", {"edges": []}, "walls: got []"),
    ("roof-plan", {"items": [{}]}, "items[0]: got"),
    ("roof-plan", {"items": [{"at": [0, 0], "from": [0, 0], "to": [1, 1]}]}, "items[0]: got"),
    ("roof-plan", {"items": [{"from": [0, 0]}]}, "items[0]: got"),
    ("roof-plan", {"extent": [[0, 0], [0, 5]]}, "extent: got"),
    ("roof-plan", {"things": [{"kind": "ladder", "at": [0, 0]}]}, 'things[0].kind: got "ladder"'),
    ("roof-plan", {"things": [{"kind": "can", "at": [0]}]}, "things[0].at: got [0]"),
    ("roof-plan", {"things": [{"kind": "can", "at": [0, "1"]}]}, 'things[0].at[1]: got "1"'),
    ("flat-pattern", {"outline": [[0, 0], [1, 1]]}, "outline: got [[0, 0], [1, 1]]"),
    ("flat-pattern", {"outline": [[0, 0], [9, 0], [5, 0]]}, "outline: got"),
    ("flat-pattern", {"legs": [{"from_mm": 9, "to_mm": 9}]}, "legs[0].to_mm: got 9"),
    ("timeline", {"to_min": 420}, "to_min: got 420; allowed: > from_min (420)"),
    ("timeline", {"events": [{"at_min": 700, "kind": "rain"}]}, "events[0].at_min: got 700"),
    (
        "timeline",
        {"bands": [{"from_min": 430, "to_min": 430, "kind": "late"}]},
        "bands[0].to_min: got 430",
    ),
    ("timeline", {"after": [{"type": "arrow"}]}, 'after[0].type: got "arrow"'),
    ("timeline", {"after": [{"type": "circle", "at": [0, 0]}]}, "after[0].radius_mm: "),
    ("timeline", {"after": [{"type": "ghost"}]}, "after[0].outline: "),
    ("timeline", {"id": "a b"}, 'id: got "a b"; allowed: a letter'),
    ("timeline", {"title": " "}, 'title: got " "'),
    ("timeline", {"states": {"event-0": "good"}}, 'states.event-0: got "good"'),
    ("timeline", {"width": 100}, "width: got 100"),
]


@pytest.mark.parametrize(("kind", "change", "said"), BAD)
def test_what_cannot_be_drawn_is_said_in_one_line(
    kind: str, change: dict[str, Any], said: str
) -> None:
    figure = {"kind": kind, "title": "t", "desc": "d", **BASE[kind]}
    draw(figure)
    with pytest.raises(InputError) as caught:
        draw(figure | change)
    message = str(caught.value)
    assert message.startswith(said), message
    assert "\n" not in message and "allowed: " in message


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", ["title", "desc"])
def test_title_and_desc_are_needed(kind: str, name: str) -> None:
    figure = some_figure(kind, 0)
    del figure[name]
    with pytest.raises(InputError, match=f"{name}: missing"):
        draw(figure)


def test_the_figure_given_is_not_changed() -> None:
    for kind in KINDS:
        figure = some_figure(kind, 2)
        draw(figure)
        assert figure == some_figure(kind, 2)
