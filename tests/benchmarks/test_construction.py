"""Values drawn by construction, beside drawing and throwing away: goal 1/100 of its time or less.

The scenario is borderline on two conditions at once: one gap a little too small, and another just
large enough. The rejection sampler draws both gaps from the whole pitch of the field laps, by the
same hat on the same grid, and is spared everything else: it compares plain numbers where a real one
would ask the calculators. Both sides are measured in processor time, turn by turn.
Run with ``pytest tests/benchmarks/test_construction.py --benchmark-enable -s``.
"""

import statistics
import time

from trainer.engine.draw import draw_values
from trainer.engine.expression import scope_of
from trainer.engine.hat import Hat
from trainer.engine.margin import draw_margin, margin_of
from trainer.engine.solve import rule_facts
from trainer.pack.families import build_family
from trainer.pack.pack import load_pack

RULES = load_pack().book.in_force()
ROUNDS = 7
DRAWS = 20
PITCH_MM = 925
NEAR = (-3.4, -1.2)
"""Margins of the first condition, in tolerances of 5 mm: too near, but not by much."""

JUST_ENOUGH_MM = (5, 17)
"""How far the second gap lies beyond the limit, in millimetres."""

FAMILY = build_family(
    {
        "family": "two-borderline-gaps",
        "rules": {"keep": "lap-clearance"},
        "values": {
            "first_mm": "at margin",
            "second_mm": {
                "from": f"ceil(keep.high) + {JUST_ENOUGH_MM[0]}",
                "to": f"ceil(keep.high) + {JUST_ENOUGH_MM[1]}",
            },
        },
        "margin": {"of": "first_mm", "rule": "keep", "tolerance": 5, "step": 1},
        "modes": {"near_miss": {"margin": list(NEAR)}},
        "judge": {},
        "figure": {},
        "decisions": [],
        "words": {},
    },
    None,
)


USED = {"keep": rule_facts(RULES.rule("lap-clearance"))}
MODE = FAMILY.modes["near_miss"]


def constructed(seed):
    hat = Hat(FAMILY.id, seed)
    return draw_values(FAMILY, MODE, draw_margin(MODE, hat), hat, scope_of(USED))


def rejected(seed):
    """Both gaps from the whole pitch, until both are borderline."""
    hat = Hat(FAMILY.id, seed)
    low, high = USED["keep"]["low"], USED["keep"]["high"]
    least, most = low + 5 * NEAR[0], low + 5 * NEAR[1]
    while True:
        values = {name: hat.on_grid(0, PITCH_MM, 1) for name in ("first_mm", "second_mm")}
        beyond = values["second_mm"] - high
        borderline = JUST_ENOUGH_MM[0] <= beyond <= JUST_ENOUGH_MM[1]
        if borderline and least <= values["first_mm"] <= most:
            return values


def test_both_draw_the_same_thing():
    low, high = USED["keep"]["low"], USED["keep"]["high"]
    for draw in (constructed, rejected):
        for seed in range(30):
            values = draw(seed)
            margin = margin_of(FAMILY.margin, scope_of(USED, values))
            assert NEAR[0] - 0.21 <= margin <= NEAR[1]
            assert high + 4 <= values["second_mm"] <= high + 18 and values["first_mm"] < low


def seconds(draw):
    began = time.process_time()
    for seed in range(DRAWS):
        draw(seed)
    return (time.process_time() - began) / DRAWS


def test_construction(report):
    seconds(constructed)
    rounds = [(seconds(rejected), seconds(constructed)) for _ in range(ROUNDS)]
    report(
        rejection_to_construction=statistics.median(theirs / ours for theirs, ours in rounds),
        rejection_ms=1e3 * statistics.median(theirs for theirs, _ in rounds),
        construction_us=1e6 * statistics.median(ours for _, ours in rounds),
    )
