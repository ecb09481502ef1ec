"""Values drawn by construction, beside drawing and throwing away: goal 1/100 of its time or less.

The scenario is borderline on two conditions at once: a lap a little too near a field lap, and the
lap before it just far enough. The rejection sampler gets every help that is cheap to give: the same
grids and ranges, plain comparisons instead of calculators, and the stream of numbers of the same
generator without the hat around it.
"""

import random
import statistics
import time

import pytest

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


@pytest.fixture(autouse=True)
def only_when_asked_for(request):
    off, on = (request.config.getoption(f"benchmark_{word}") for word in ("disable", "enable"))
    if off and not on:
        pytest.skip("benchmarks are switched on with --benchmark-enable")


USED = {"keep": rule_facts(RULES.rule("lap-clearance"))}
MODE = FAMILY.modes["near_miss"]


def constructed(seed):
    hat = Hat(FAMILY.id, seed)
    return draw_values(FAMILY, MODE, draw_margin(MODE, hat), hat, scope_of(USED))


def rejected(seed):
    """Both gaps from the whole pitch of the field laps, until both are borderline."""
    chance = random.Random(seed).random
    low, high = USED["keep"]["low"], USED["keep"]["high"]
    least, most = low + 5 * NEAR[0], low + 5 * NEAR[1]
    while True:
        first = int(chance() * PITCH_MM)
        second = int(chance() * PITCH_MM)
        if (
            least <= first <= most
            and high + JUST_ENOUGH_MM[0] <= second <= high + JUST_ENOUGH_MM[1]
        ):
            return {"first_mm": first, "second_mm": second}


def test_both_draw_the_same_thing():
    low, high = USED["keep"]["low"], USED["keep"]["high"]
    for draw in (constructed, rejected):
        for seed in range(30):
            values = draw(seed)
            margin = margin_of(FAMILY.margin, scope_of(USED, values))
            assert NEAR[0] - 0.21 <= margin <= NEAR[1]
            assert high + 4 <= values["second_mm"] <= high + 18 and values["first_mm"] < low


def test_construction(benchmark, capsys):
    theirs = []

    def rejection_first():
        began = time.perf_counter()
        for seed in range(DRAWS):
            rejected(seed)
        theirs.append(time.perf_counter() - began)
        return (), {}

    def ours_in_turn():
        for seed in range(DRAWS):
            constructed(seed)

    benchmark.pedantic(ours_in_turn, setup=rejection_first, rounds=ROUNDS, warmup_rounds=1)
    ours = benchmark.stats.stats.data
    ratios = [other / own for other, own in zip(theirs[-ROUNDS:], ours, strict=True)]
    benchmark.extra_info["rejection_over_construction"] = ratio = statistics.median(ratios)
    with capsys.disabled():
        print(
            f"\n{1e6 * statistics.median(ours) / DRAWS:.0f} µs by construction, rejection "
            f"{1e3 * statistics.median(theirs) / DRAWS:.1f} ms: 1/{ratio:.0f} of its time"
        )
