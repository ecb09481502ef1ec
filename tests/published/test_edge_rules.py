"""Drops, guardrails and raised roofs, rule set by rule set.

Each value beside its source and how it was read: "read" in a copy of the page; "secondary" in a
page that restates it; "reproduction" in a copy of unknown authority; "from memory" nowhere. Rule
sets differ by place and edition: none of this is advice for a site.
"""

from __future__ import annotations

import pytest

from trainer.roofing.edge import EDGE_PROTECTION
from trainer.roofing.finish import FINISH_HEIGHT

INCH, FOOT = 25.4, 304.8  # mm exactly, international agreement of 1959

DROPS = [
    # 29 CFR 1926.501(b)(1): 6 ft (1.8 m) or more above a lower level; restated at
    # http://cfshbs.com/safetyrailsco_specs.php (secondary)
    ("29 CFR 1926.501, feet", 6 * FOOT),
    ("29 CFR 1926.501, metres", 1800),
    # WAC 296-155-24515(1), an older rule for low-pitched roofs: over 10 ft (3 m);
    # mrsc.org, WAC 296-155-24515 (read)
    ("Washington, older rule", 10 * FOOT),
    # from 4 ft (1.2 m); https://www.ehs.washington.edu, note on WAC 296-880 (secondary)
    ("University of Washington", 4 * FOOT),
    # BC OHS Regulation 11.2: a fall of 3 m (10 ft) or more; keesafety.ca (secondary)
    ("British Columbia", 3000),
    # O. Reg. 213/91 s. 26: above 3 m (from memory)
    ("Ontario", 3000),
]

GUARDRAILS = [
    # 29 CFR 1926.502(b)(1): 42 in less 3 in, rounded 1.0 m; http://cfshbs.com/ (secondary)
    ("29 CFR 1926.502", 39 * INCH),
    # a 42 in parapet counts; https://www.ehs.washington.edu (secondary)
    ("University of Washington", 42 * INCH),
    # Work at Height Regulations 2005, Schedule 2, in the HSE's answers (read)
    ("Great Britain", 950),
    # EN 13374:2013+A1: 1.0 m square to the surface (read)
    ("EN 13374", 1000),
]


def ask(drop_mm, parapet_mm=0, *, limit_mm=1800, guardrail_mm=39 * INCH, **more):
    return EDGE_PROTECTION(
        {
            "drop_mm": drop_mm,
            "edge_limit_mm": limit_mm,
            "parapet_mm": parapet_mm,
            "guardrail_mm": guardrail_mm,
            "guardrail": False,
            "tied_on": False,
        }
        | more
    )


@pytest.mark.parametrize(("rule", "limit_mm"), DROPS)
def test_protection_is_needed_from_the_published_drop_on(rule, limit_mm):
    """At the drop itself "or more" asks for it and "above" does not; the program always does."""
    needed = [
        ask(drop, limit_mm=limit_mm)["needed"] for drop in (limit_mm - 1, limit_mm, limit_mm + 1)
    ]
    assert needed == [False, True, True]


@pytest.mark.parametrize(("rule", "guardrail_mm"), GUARDRAILS)
def test_a_parapet_counts_from_the_published_height_on(rule, guardrail_mm):
    heights = (guardrail_mm - 1, guardrail_mm, guardrail_mm + 1)
    answers = [ask(6000, height, guardrail_mm=guardrail_mm) for height in heights]
    assert [answer["ok"] for answer in answers] == [False, True, True]
    assert [answer["short_mm"] for answer in answers] == [1, 0, 0]


# 1050 mm above the old surface; insulation, board and plies are laid. What is left, and how far it
# falls short of each rule above: subtraction by hand.
RAISED = [
    ([60, 12, 8], 970, 950, 0),
    ([60, 12, 8], 970, 39 * INCH, 20.6),
    ([60, 12, 8], 970, 1000, 30),
    ([60], 990, 950, 0),
    ([60], 990, 39 * INCH, 0.6),
    ([], 1050, 39 * INCH, 0),
    ([], 1050, 1000, 0),
    ([], 1050, 42 * INCH, 16.8),
]


@pytest.mark.parametrize(("layers", "left", "required", "short"), RAISED)
def test_new_layers_bring_a_parapet_down(layers, left, required, short):
    answer = FINISH_HEIGHT({"height_mm": 1050, "layers_mm": layers, "required_mm": required})
    assert answer == {
        "added_mm": 1050 - left,
        "height_mm": left,
        "ok": not short,
        "short_mm": short,
    }


@pytest.mark.parametrize(("layers", "left", "required", "short"), RAISED)
def test_the_edge_says_the_same_of_the_parapet_that_is_left(layers, left, required, short):
    answer = ask(6000, left, guardrail_mm=required)
    assert (answer["ok"], answer["short_mm"]) == (not short, short)
    assert answer["grounds"] == (["parapet too low"] if short else [])


def test_the_same_parapet_passes_in_one_place_and_fails_in_another():
    """970 mm: a guardrail in Great Britain, too low in the United States and for EN 13374."""
    assert [ask(6000, 970, guardrail_mm=height)["ok"] for _, height in GUARDRAILS] == [
        False, False, True, False,
    ]  # fmt: skip
