"""What can be pressed and what can be moved, as docs/drawings.md promises it to scripts."""

from __future__ import annotations

from typing import Any

import pytest

from tests.unit.drawing.reading import classed, parsed, part, place, pressed
from trainer.drawing import draw
from trainer.errors import InputError

WALL: dict[str, Any] = {
    "kind": "wall-elevation",
    "title": "t",
    "desc": "d",
    "wall_mm": 5000,
    "height_mm": 400,
    "laps": [{"from_mm": 900, "to_mm": 1000}, {"from_mm": 1800, "to_mm": 1900}],
}
PLAN: dict[str, Any] = {
    "kind": "roof-plan",
    "title": "t",
    "desc": "d",
    "things": [
        {
            "kind": "torch",
            "at": [1500, 2000],
            "movable_x": {"min": 0, "max": 4000, "step": 50},
            "movable_y": {"min": 0, "max": 3000},
        },
        {"kind": "person", "at": [400, 300], "label": "fire watch"},
    ],
}
TOLD: dict[str, Any] = {"title": "t", "desc": "d"}
SPAN = {"min": 0, "max": 300, "step": 5}


def test_parts_are_buttons_only_while_they_can_be_pressed() -> None:
    root = parsed(draw(WALL | {"parts_live": True}))
    lap = pressed(root, "lap-0")
    assert (lap.get("class"), lap.get("role"), lap.get("tabindex")) == ("part", "button", "0")
    assert lap.get("aria-label") == "lap 1" and lap.get("aria-pressed") == "false"
    assert root.get("role") == "group"
    for quiet in (WALL, WALL | {"parts_live": True, "after": []}):
        root = parsed(draw(quiet))
        assert not classed(root, "part") and root.get("role") == "img"
        assert part(root, "lap-0").get("tabindex") is None


def test_a_part_is_called_by_the_name_it_is_given() -> None:
    root = parsed(draw(WALL | {"parts_live": True, "names": {"lap-1": "the <second> lap"}}))
    assert pressed(root, "lap-1").get("aria-label") == "the <second> lap"


def test_what_became_of_a_part_is_a_class_a_ring_and_a_mark() -> None:
    states = {"lap-0": "right", "lap-1": "wrong"}
    root = parsed(draw(WALL | {"states": states, "after": []}))
    assert pressed(root, "lap-0").get("class") == "is-right"
    assert pressed(root, "lap-1").get("class") == "is-wrong"
    assert len(classed(root, "hit")) == 2 and len(classed(root, "sign")) == 2


def test_chosen_parts_are_pressed() -> None:
    root = parsed(draw(WALL | {"states": {"lap-1": "chosen"}, "parts_live": True}))
    assert pressed(root, "lap-1").get("class") == "part is-chosen"
    assert pressed(root, "lap-1").get("aria-pressed") == "true"


def test_states_and_names_of_parts_that_are_not_there_are_refused() -> None:
    with pytest.raises(InputError, match=r"states\.lap-7: got \"right\"; allowed: parts .*lap-0"):
        draw(WALL | {"states": {"lap-7": "right"}})
    with pytest.raises(InputError, match=r"names\.roof"):
        draw(WALL | {"names": {"roof": "x"}})


def test_a_script_reads_back_the_millimetres_of_what_moves_along_a_wall() -> None:
    span = {"min": 600, "max": 1400, "step": 10}
    thing = pressed(parsed(draw(WALL | {"movable": {"lap": 0, "range": span}})), "lap-0")
    assert thing.get("class") == "movable" and thing.get("role") == "slider"
    assert [thing.get(f"data-{name}") for name in ("axis", "min", "max", "step", "value")] == [
        "x",
        "600",
        "1400",
        "10",
        "900",
    ]
    zero, per_px = float(thing.get("data-zero-x") or 0), float(thing.get("data-per-px") or 0)
    assert (place(thing)[0] - zero) * per_px == pytest.approx(900, abs=0.06 * per_px)
    assert thing.get("data-zero-y") is None


def test_a_torch_moves_both_ways_and_up_counts_up() -> None:
    root = parsed(draw(PLAN))
    thing = pressed(root, "torch-0")
    assert thing.get("data-axis") == "xy" and thing.get("role") == "button"
    assert thing.get("data-min") == "0,0" and thing.get("data-max") == "4000,3000"
    assert thing.get("data-step") == "50,10"
    x_mm, y_mm = (float(number) for number in (thing.get("data-per-px") or "").split(","))
    assert x_mm > 0 > y_mm and x_mm == -y_mm
    at = place(thing)
    zero = float(thing.get("data-zero-x") or 0), float(thing.get("data-zero-y") or 0)
    assert (at[0] - zero[0]) * x_mm == pytest.approx(1500, abs=0.06 * x_mm * 2)
    assert (at[1] - zero[1]) * y_mm == pytest.approx(2000, abs=0.06 * x_mm * 2)
    assert root.get("role") == "group"


def test_a_chalk_line_counts_its_distance_from_the_wall() -> None:
    figure = {
        "kind": "parapet-section",
        "title": "t",
        "desc": "d",
        "height_mm": 300,
        "width_mm": 240,
        "deck": {"material": "timber", "thickness_mm": 25},
        "core": "masonry",
        "chalk": {"at_mm": 150, "movable": {"min": 0, "max": 500, "step": 5}},
    }
    thing = pressed(parsed(draw(figure)), "chalk-line")
    per_px = float(thing.get("data-per-px") or 0)
    assert per_px < 0  # to the left is farther from the wall
    gone = place(thing)[0] - float(thing.get("data-zero-x") or 0)
    assert gone * per_px == pytest.approx(150, abs=0.2)


def test_a_mark_on_the_timeline_counts_minutes_down_the_page() -> None:
    figure = {
        "kind": "timeline",
        "title": "t",
        "desc": "d",
        "from_min": 420,
        "to_min": 660,
        "markers": [{"at_min": 500, "label": "last", "movable": {"min": 430, "max": 650}}],
    }
    thing = pressed(parsed(draw(figure)), "marker-0")
    assert thing.get("data-axis") == "y" and thing.get("aria-orientation") == "vertical"
    per_px = float(thing.get("data-per-px") or 0)
    down = place(thing)[1] - float(thing.get("data-zero-y") or 0)
    assert down * per_px == pytest.approx(500, abs=0.2)


def test_nothing_moves_once_the_decision_is_answered() -> None:
    root = parsed(draw(PLAN | {"after": []}))
    assert not classed(root, "movable") and not classed(root, "grip")
    assert part(root, "torch-0") is not None and root.get("role") == "img"


def test_a_value_outside_its_range_is_refused() -> None:
    span = {"min": 1000, "max": 1400, "step": 10}
    with pytest.raises(InputError, match="lap-0: got 900; allowed: 1000 ≤ value ≤ 1400 along x"):
        draw(WALL | {"movable": {"lap": 0, "range": span}})


def test_what_was_moved_can_be_right_or_wrong_like_any_part() -> None:
    root = parsed(draw(PLAN | {"after": [], "states": {"torch-0": "wrong"}}))
    assert pressed(root, "torch-0").get("class") == "is-wrong"
    assert place(part(root, "torch-0"))


def test_rings_lie_over_every_shape_and_under_every_letter() -> None:
    states = {"lap-0": "right", "sheet-0": "chosen"}
    svg = draw(WALL | {"parts_live": True, "states": states})
    assert svg.rindex("data-shape") < svg.index("data-part") < svg.index('class="labels"')


@pytest.mark.parametrize(
    ("figure", "ident", "value", "up"),
    [
        (
            WALL | {"marker": {"at": [900, 120], "line": "level", "movable_y": SPAN}},
            "marker",
            120,
            True,
        ),
        (
            TOLD
            | {
                "kind": "lap-section",
                "lap_mm": 100,
                "marker": {"at_mm": 30, "movable": SPAN},
            },
            "marker",
            30,
            False,
        ),
        (
            TOLD
            | {
                "kind": "flat-pattern",
                "outline": [[0, 0], [900, 0], [900, 600], [0, 600]],
                "corner_cuts": [
                    {"at": [900, 600], "corner": "top right", "leg_mm": 80, "movable": SPAN}
                ],
            },
            "corner-cut-0",
            80,
            False,
        ),
    ],
)
def test_markers_and_corner_cuts_count_their_millimetres(
    figure: dict[str, Any], ident: str, value: float, up: bool
) -> None:
    thing = pressed(parsed(draw(figure)), ident)
    letter, along = ("y", 1) if up else ("x", 0)
    assert thing.get("data-axis") == letter
    per_px = float(thing.get("data-per-px") or 0)
    gone = place(thing)[along] - float(thing.get(f"data-zero-{letter}") or 0)
    assert gone * per_px == pytest.approx(value, abs=0.2 * abs(per_px))
    answered = parsed(draw(figure | {"after": []}))
    assert not classed(answered, "movable") and part(answered, ident) is not None
