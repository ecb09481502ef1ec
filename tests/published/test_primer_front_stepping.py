"""A wall of primer against a second way to compute it: a roller that walks, and marks that age.

Nothing here knows a formula. A roller moves on a tenth of a metre at a time and leaves a mark;
every minute every mark gets a minute older. No document was found that lays such a wall out; limits
of the data sheet are made up, 120 and 180 min are common practice, no source.
"""

import pytest

from trainer.roofing.primerfront import PRIMER_FRONT

WALLS = [
    # minutes a tenth of a metre, tenths of wall, dry, plan, latest
    (1, 60, 45, 120, 180),
    (1, 200, 45, 120, 180),
    (2, 90, 30, 60, 60),
    (3, 40, 0, 20, 100),
    (1, 5, 10, 10, 10),
    (2, 120, 60, 120, 180),
]


def aged(per_tenth, tenths, minutes):
    """The age of the mark at every tenth of a metre that the roller has reached, by its place."""
    marks = {0: 0}
    on_the_way = 0
    for _ in range(minutes):
        marks = {place: age + 1 for place, age in marks.items()}
        on_the_way += 1
        if on_the_way == per_tenth and len(marks) <= tenths:
            marks[len(marks)] = 0
            on_the_way = 0
    return marks


def state(age, dry, plan, latest):
    for limit, older in ((latest, "dead"), (plan, "late")):
        if age > limit:
            return older
    return "ready" if age >= dry else "drying"


def furthest(marks, limits, *states):
    """The last tenth, in mm, whose mark is in one of the states; −1 for none."""
    return max((place * 100 for place, age in marks.items() if state(age, *limits) in states),
               default=-1)  # fmt: skip


@pytest.mark.parametrize("minutes", [0, 1, 9, 10, 11, 44, 45, 60, 61, 119, 120, 121, 180, 181, 400])
@pytest.mark.parametrize(("per_tenth", "tenths", "dry", "plan", "latest"), WALLS)
def test_every_mark_lies_in_the_stretch_of_its_age(per_tenth, tenths, dry, plan, latest, minutes):
    limits, marks = (dry, plan, latest), aged(per_tenth, tenths, minutes)
    wall = PRIMER_FRONT(
        {
            "started_at": "2026-05-04T07:00",
            "now": f"2026-05-04T{7 + minutes // 60:02}:{minutes % 60:02}",
            "prime_min_per_m": per_tenth * 10,
            "length_mm": tenths * 100,
            **dict(zip(("dry_min", "plan_min", "latest_min"), limits, strict=True)),
        }
    )
    assert 0 <= wall["primed_mm"] - max(marks) * 100 < 100
    for name, states in (
        ("dead_to_mm", ["dead"]),
        ("late_to_mm", ["dead", "late"]),
        ("ready_to_mm", ["dead", "late", "ready"]),
    ):
        last = furthest(marks, limits, *states)
        # the true end lies at that mark or before the next one, which is younger than the limit
        assert max(last, 0) <= wall[name] <= last + 100
    for part in wall["stretches"]:
        inside = [p for p in marks if part["from_mm"] < p * 100 < part["to_mm"]]
        assert {state(marks[place], *limits) for place in inside} <= {part["state"]}
