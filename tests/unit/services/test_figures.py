"""Where a worker put something is shown on the drawing, whichever axes could be moved."""

import pytest

from trainer.services.figures import Put

TORCH = {"things": [{"kind": "torch", "at": [1500, 800], "movable_x": {"min": 0, "max": 4000}}]}
FIELDS = {"right": True, "text": "you"}


def place(kind, at, axes, moved=None, **figure):
    shown = Put(at, axes, moved=moved or {}, **FIELDS).overlays({"kind": kind, **figure})
    return shown[0]["at"] if shown else None


@pytest.mark.parametrize(
    ("put", "expected"),
    [
        (("roof-plan", (700, 900), "xy"), [700, 900]),
        (("roof-plan", (700,), "x", TORCH), [700, 800]),
        (("roof-plan", (900,), "y", TORCH), [1500, 900]),
        (("roof-plan", (700,), "x"), None),
        (("flat-pattern", (90,), "x"), None),
        (("parapet-section", (150,), "x"), [-150, 0]),
        (("lap-section", (12,), "x"), [12, 0]),
    ],
)
def test_a_place_along_one_axis_lies_where_the_thing_stood(put, expected):
    assert place(*put) == expected


def test_on_a_wall_it_lies_at_the_top():
    assert place("wall-elevation", (450,), "x", height_mm=300) == [450, 300]
