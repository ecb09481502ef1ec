"""Who needs a fire watch and who may watch several torches, by the published rules.

Each value beside its source and how it was read: "read" in a copy of the page, "secondary" in a
page that restates it. Rule sets differ by place and edition: none of this is advice for a site.
"""

from __future__ import annotations

import pytest

from trainer.roofing.pairing import PAIRING
from trainer.roofing.watchneed import WATCH_NEEDED

FOOT = 304.8  # mm exactly, international agreement of 1959

# 29 CFR 1910.252(a)(2)(iii)(A), read in its mirror WAC 296-307-49503(3):
# http://app.leg.wa.gov/wac/default.aspx?cite=296-307-49503 (read)
LIMITS = (10_700, 35 * FOOT)  # "35 ft (10.7 m)": the two statements of one limit
NOTHING = {"combustibles": [], "openings": [], "behind_metal": []}


def thing(name, distance_mm, easily_lit=False):
    return {"name": name, "distance_mm": distance_mm, "easily_lit": easily_lit}


POSTED = [
    # (i) appreciable combustibles nearer than 35 ft
    ({"combustibles": [thing("cedar screen", 9000)]}, ["combustible near"]),
    ({"combustibles": [thing("timber stack", 12_000)]}, []),
    # (ii) farther away, but easily lit by sparks
    ({"combustibles": [thing("loose paper in the wind", 12_000, True)]}, ["easily lit"]),
    # (iii) wall or floor openings inside the radius that expose combustibles, voids included
    ({"openings": [{"name": "hatch to the store", "distance_mm": 9000}]}, ["opening near"]),
    ({"openings": [{"name": "hatch to the store", "distance_mm": 12_000}]}, []),
    # (iv) combustibles against the far side of metal partitions, walls, ceilings or roofs
    ({"behind_metal": ["foam under the metal deck"]}, ["behind metal"]),
    (NOTHING, []),
    # any one is enough; all of them together
    (
        {
            "combustibles": [thing("paper", 12_000, True), thing("cedar screen", 9000)],
            "openings": [{"name": "hatch", "distance_mm": 9000}],
            "behind_metal": ["foam"],
        },
        ["combustible near", "easily lit", "opening near", "behind metal"],
    ),
]


@pytest.mark.parametrize("limit_mm", LIMITS)
@pytest.mark.parametrize(("around", "triggers"), POSTED)
def test_a_watch_is_posted_for_the_triggers_of_the_rule(around, triggers, limit_mm):
    answer = WATCH_NEEDED(NOTHING | around | {"limit_mm": limit_mm})
    assert (answer["needed"], answer["triggers"]) == (bool(triggers), triggers)


# New York City Fire Code FC 3504.2.7.1.1: one fire guard for each torch, or one for several within
# 50 ft (15 240 mm) of actual walking, on the same level, every exposure in view.
# https://nacmiaslaw.com/resources/legal-codes/26459 (read)
WALK_MM = 15_240


def torches(*feet, watch="guard", **more):
    return [
        {
            "name": f"torch {i}",
            "watch": watch,
            "walk_mm": walk * FOOT,
            "same_level": True,
            "in_view": True,
        }
        | more
        for i, walk in enumerate(feet, 1)
    ]


def guard(name="guard", **more):
    return {"name": name, "trained": True, "other_duty": False} | more


def paired(torches, *watchers):
    answer = PAIRING({"torches": torches, "watchers": list(watchers), "limit_mm": WALK_MM})
    assert answer["ok"] is all(each["ok"] for each in answer["torches"])
    assert all(each["ok"] is not bool(each["grounds"]) for each in answer["torches"])
    return [each["grounds"] for each in answer["torches"]]


def test_of_three_torches_at_40_48_and_55_feet_the_third_needs_its_own_guard():
    three = torches(40, 48, 55)
    assert paired(three, guard()) == [[], [], ["too far"]]
    three[2]["watch"] = "another"
    assert paired(three, guard(), guard("another")) == [[], [], []]


def test_fifty_feet_on_foot_is_near_enough():
    assert WALK_MM == 50 * FOOT
    assert paired(torches(50, 50), guard()) == [[], []]


def test_one_guard_for_several_has_them_on_one_level_and_in_view():
    assert paired(torches(10, 20, same_level=False), guard()) == [["other level"]] * 2
    assert paired(torches(10, 20, in_view=False), guard()) == [["out of view"]] * 2


def test_a_guard_of_one_torch_is_not_asked_for_distance_level_or_view():
    assert paired(torches(70, same_level=False, in_view=False), guard()) == [[]]


# 29 CFR 1915.504(c), shipyards: no other duties; http://laws9.com/cfr/text/29/1915/504 (read).
# IFC 2018, 3504.2.3 and 3504.2.4: trained in the use of the extinguisher;
# https://online.flipbuilder.com/mewf/eofz/files/basic-html/page365.html (read)
def test_a_guard_is_trained_and_has_no_other_duty():
    assert paired(torches(10), guard(trained=False)) == [["not trained"]]
    assert paired(torches(10), guard(other_duty=True)) == [["other duty"]]
    assert paired(torches(10, watch=None), guard()) == [["no watch"]]
