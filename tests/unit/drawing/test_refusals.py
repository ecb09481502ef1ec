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
BOARD = {"material": "mineral board", "thickness_mm": 250}
ELEVATION: dict[str, Any] = {"wall_mm": 3000, "height_mm": 300}
PLAN: dict[str, Any] = {"edges": [[[0, 0], [3000, 0]]]}
FLAT: dict[str, Any] = {"outline": [[0, 0], [900, 0], [900, 600]]}
TIME: dict[str, Any] = {"from_min": 420, "to_min": 600}
LAP: dict[str, Any] = {"lap_mm": 100}
WORK: dict[str, Any] = {"wall_mm": 3000, "height_mm": 300}
DAYS: dict[str, Any] = {
    "from_min": 420,
    "to_min": 600,
    "days": [{"name": "Your day", "tracks": [{"name": "Dana"}]}],
}
BASE = dict(zip(KINDS, (SECTION, ELEVATION, PLAN, FLAT, LAP, TIME, WORK, DAYS), strict=True))
WATCH: dict[str, Any] = {"from_min": 430, "to_min": 500, "kind": "watch"}

BAD: list[tuple[str, dict[str, Any], str]] = [
    ("wall-at-work", {"chalk_mm": 400}, "chalk_mm: got 400; allowed: ≤ field_mm (300)"),
    (
        "wall-at-work",
        {"primer": [{"from_mm": 900, "to_mm": 400}]},
        "primer[0].to_mm: got 400; allowed: > from_mm (900)",
    ),
    (
        "wall-at-work",
        {"sheets": [{"from_mm": 3000, "to_mm": 3400}]},
        "sheets[0].from_mm: got 3000; allowed: on the wall, 0 to 3000",
    ),
    ("wall-at-work", {"openings": [{"at_mm": 3100}]}, "openings[0].at_mm: got 3100"),
    ("wall-at-work", {"things": [{"at_mm": -1, "kind": "touch"}]}, "things[0].at_mm: got -1"),
    ("wall-at-work", {"primer": [{"from_mm": 0, "to_mm": 9, "age": "dry"}]}, "primer[0].age"),
    ("days", {"to_min": 400}, "to_min: got 400; allowed: > from_min (420)"),
    (
        "days",
        {
            "days": [
                {
                    "name": "d",
                    "tracks": [
                        {"name": "D", "blocks": [{"from_min": 0, "to_min": 9, "kind": "lay"}]}
                    ],
                }
            ]
        },
        "days[0].tracks[0].blocks[0].to_min: got 9",
    ),
    (
        "days",
        {
            "days": [
                {"name": "d", "tracks": [{"name": "D"}], "marks": [{"at_min": 700, "kind": "end"}]}
            ]
        },
        "days[0].marks[0].at_min: got 700; allowed: 420 to 600",
    ),
    ("days", {"days": []}, "days: got"),
    (
        "roof-plan",
        {
            "walls": [
                {
                    "faces": [[0, 0], [900, 0]],
                    "thickness_mm": 200,
                    "roof_side": "right",
                    "legs": ["A", "B"],
                }
            ]
        },
        "walls[0].legs: got",
    ),
    ("roof-plan", {"places": {"torch-7": "x"}}, "places.torch-7"),
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
    ("parapet-section", {"bridge": {"gap_mm": 20}}, "bridge.gap_mm: got 20; allowed: no bridge"),
    (
        "parapet-section",
        {"flashing": {"field_lap_mm": 100, "up_mm": 150}, "bridge": {"gap_mm": 120}},
        "bridge.gap_mm: got 120; allowed: ≤ 100",
    ),
    (
        "parapet-section",
        {"flashing": {"field_lap_mm": 100, "foot": "old"}},
        'flashing.foot: got "old"',
    ),
    ("parapet-section", {"layers": [BOARD]}, "layers: got 1; allowed: none where core is given"),
    ("parapet-section", {"added": [{"material": "straw", "thickness_mm": 9}]}, "added[0].material"),
    (
        "parapet-section",
        {"finish": {"material": "ballast", "thickness_mm": 300}},
        "finish.thickness_mm: got 300; allowed: < height_mm",
    ),
    (
        "parapet-section",
        {"finish": {"material": "ballast", "thickness_mm": 50}, "finish_mm": 60},
        "finish_mm: got 60; allowed: absent",
    ),
    ("parapet-section", {"guardrail": {"height_mm": 250}}, "guardrail.height_mm: got 250"),
    (
        "parapet-section",
        {"guardrail": {"height_mm": 900, "at_mm": 400}},
        "guardrail.at_mm: got 400; allowed: ≤ width_mm",
    ),
    ("parapet-section", {"beyond_mm": 320}, "beyond_mm: got 320; allowed: above the underside"),
    ("parapet-section", {"drop_mm": 0}, "drop_mm: got 0"),
    ("parapet-section", {"faces": [{"face": "top"}, {"face": "top"}]}, "faces[1].face: got"),
    ("parapet-section", {"dimensions": ["height_old"]}, 'dimensions[0]: got "height_old"'),
    ("parapet-section", {"detail": {"at": [0, 900], "radius_mm": 50}}, "detail.at: got [0, 900]"),
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
    (
        "wall-elevation",
        {"blemishes": [{"at": [0, 900], "width_mm": 9, "height_mm": 9, "kind": "void"}]},
        "blemishes[0].at: got [0, 900]",
    ),
    (
        "wall-elevation",
        {"blemishes": [{"at": [0, 0], "width_mm": 9, "height_mm": 9, "kind": "scar"}]},
        'blemishes[0].kind: got "scar"',
    ),
    ("wall-elevation", {"cuts": [{"from": [9, 9], "to": [9, 9]}]}, "cuts[0].to: got [9, 9]"),
    (
        "wall-elevation",
        {"patches": [{"from": [9, 9], "to": [9, 50]}]},
        "patches[0].to: got [9, 50]",
    ),
    ("wall-elevation", {"faces": [{"from_mm": 9, "to_mm": 9}]}, "faces[0].to_mm: got 9"),
    ("wall-elevation", {"open_edge": [{"from_mm": 0, "to_mm": 3001}]}, "open_edge[0].to_mm: got"),
    ("wall-elevation", {"foot": [[0, 0], [3000, 300]]}, "foot[1][1]: got 300; allowed: < height"),
    ("wall-elevation", {"foot": [[0, 0], [2000, 50]]}, "foot[1][0]: got 2000; allowed: ≥ wall_mm"),
    ("wall-elevation", {"foot": [[5, 0], [3000, 50]]}, "foot[0][0]: got 5; allowed: ≤ 0"),
    (
        "wall-elevation",
        {"foot": [[0, 0], [0, 9], [3000, 0]]},
        "foot[1][0]: got 0; allowed: > the x",
    ),
    ("wall-elevation", {"heights_at": [3100]}, "heights_at[0]: got 3100"),
    ("wall-elevation", {"films": [{"sheet": 0}]}, "films[0].sheet: got 0"),
    ("wall-elevation", {"spots": [{"at": [-1, 0]}]}, "spots[0].at: got [-1, 0]"),
    ("wall-elevation", {"marker": {"at": [0, 400]}}, "marker.at: got [0, 400]"),
    ("roof-plan", {"edges": []}, "walls: got []"),
    ("roof-plan", {"items": [{}]}, "items[0]: got"),
    ("roof-plan", {"items": [{"at": [0, 0], "from": [0, 0], "to": [1, 1]}]}, "items[0]: got"),
    ("roof-plan", {"items": [{"from": [0, 0]}]}, "items[0]: got"),
    ("roof-plan", {"extent": [[0, 0], [0, 5]]}, "extent: got"),
    ("roof-plan", {"things": [{"kind": "ladder", "at": [0, 0]}]}, 'things[0].kind: got "ladder"'),
    ("roof-plan", {"things": [{"kind": "can", "at": [0]}]}, "things[0].at: got [0]"),
    ("roof-plan", {"things": [{"kind": "can", "at": [0, "1"]}]}, 'things[0].at[1]: got "1"'),
    (
        "roof-plan",
        {"obstacles": [{"from": [0, 0], "to": [0, 500], "kind": "plant"}]},
        "obstacles[0].to: got [0, 500]",
    ),
    (
        "roof-plan",
        {
            "extent": [[0, 0], [3000, 2000]],
            "obstacles": [{"from": [100, 100], "to": [3500, 500], "kind": "plant"}],
        },
        "obstacles[0].to: got [3500, 500]; allowed: inside extent (0 to 3000 across, 0 to 2000 up)",
    ),
    ("roof-plan", {"obstacles": [{"from": [0, 0], "to": [9, 9]}]}, "obstacles[0].kind: missing"),
    ("roof-plan", {"ways": [{"points": [[0, 0]]}]}, "ways[0].points: got"),
    (
        "roof-plan",
        {"laid": [{"from": [0, 0], "to": [1000, 900], "ply": 4}]},
        "laid[0].ply: got 4",
    ),
    ("roof-plan", {"openings": [{}]}, "openings[0]: got"),
    (
        "roof-plan",
        {"openings": [{"from": [5, 5], "to": [5, 5]}]},
        "openings[0].to: got [5, 5]; allowed: another point than from",
    ),
    ("roof-plan", {"wind": {"towards": [0, 0]}}, "wind.towards: got [0, 0]"),
    (
        "roof-plan",
        {"things": [{"kind": "can", "at": [0, 0], "holds": "sheet"}]},
        'things[0].holds: got "sheet"; allowed: nothing unless kind is "person"',
    ),
    (
        "roof-plan",
        {"things": [{"kind": "can", "at": [0, 0], "bent_to": [1, 1]}]},
        "things[0].bent_to: got [1, 1]",
    ),
    ("flat-pattern", {"outline": [[0, 0], [1, 1]]}, "outline: got [[0, 0], [1, 1]]"),
    ("flat-pattern", {"outline": [[0, 0], [9, 0], [5, 0]]}, "outline: got"),
    ("flat-pattern", {"legs": [{"from_mm": 9, "to_mm": 9}]}, "legs[0].to_mm: got 9"),
    (
        "flat-pattern",
        {"corner_cuts": [{"at": [5, 5], "leg_mm": 9, "corner": "top left"}]},
        "corner_cuts[0].at: got [5, 5]",
    ),
    ("lap-section", {"lap_mm": 5}, "lap_mm: got 5"),
    ("lap-section", {"bead": {"width_mm": 5}, "beads": [{"width_mm": 5}]}, "beads: got 1"),
    ("lap-section", {"bead": {"width_mm": -1}}, "bead.width_mm: got -1"),
    ("lap-section", {"void": {"from_mm": 30, "to_mm": 30}}, "void.to_mm: got 30"),
    ("lap-section", {"film": {"from_mm": 30, "to_mm": 101}}, "film.to_mm: got 101"),
    ("lap-section", {"third": {"from_mm": 120}}, "third.from_mm: got 120"),
    ("lap-section", {"roller": {"at_mm": 120}}, "roller.at_mm: got 120"),
    ("lap-section", {"marker": {"at_mm": -50}}, "marker.at_mm: got -50"),
    (
        "lap-section",
        {"beads": [{"width_mm": 5}, {"width_mm": 9}], "roller": {"at_mm": 20}},
        "roller: got",
    ),
    ("timeline", {"cover": WATCH}, "cover: got"),
    ("timeline", {"tracks": [{"name": str(i)} for i in range(7)]}, "tracks: got"),
    (
        "timeline",
        {
            "tracks": [{"name": str(i)} for i in range(6)],
            "events": [{"at_min": 430, "kind": "now"}],
        },
        "tracks: got 6; allowed: at most",
    ),
    (
        "timeline",
        {"tracks": [{"name": "Ana", "bands": [WATCH, WATCH]}]},
        "tracks[0].bands[0].from_min: got 430; allowed: ≥ 500",
    ),
    (
        "timeline",
        {"tracks": [{"name": "Ana", "bands": [WATCH | {"to_min": 700}]}]},
        "tracks[0].bands[0].to_min: got 700",
    ),
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
