"""The last flame went out at 15:10: when may the watch end, rule set by rule set?

Each rule beside its source and how it was read: "read" in a copy of the page; "secondary" in a page
that restates it; "reproduction" in a copy of unknown authority; "from memory" nowhere. Rule sets
differ by place and edition: none of this is advice for a site.
"""

import pytest

from trainer.roofing.firewatch import FIRE_WATCH

LAST_FLAME = "15:10"

CONSTRUCTION = {"name": "29 CFR 1926.352(e)", "watch_min": None}
GENERAL_INDUSTRY = {"name": "29 CFR 1910.252(a)(2)(iii)", "watch_min": 30}
IFC_2018 = {"name": "IFC 2018 3504.2", "watch_min": 30}
NFPA_51B_2014 = {"name": "NFPA 51B 2014", "watch_min": 30}
LOCAL_HOUR = {"name": "local ordinance, 1 h", "watch_min": 60}
NFPA_51B_2019 = {"name": "NFPA 51B 2019", "watch_min": 60, "monitor_min": 180}
ARMY_ENGINEERS = {"name": "US Army Corps of Engineers contract", "watch_min": 60}
NFPA_241_2022 = {"name": "NFPA 241 2022 by 527 CMR 1.00", "watch_min": 120}
CANADA = {"name": "National Fire Code of Canada", "watch_min": 60, "monitor_min": 180}

ENDS = [
    # restated at https://elcosh.org/image/775/i000284/284.html (secondary)
    (CONSTRUCTION, None, None),
    # WAC 296-307-49503(3), http://app.leg.wa.gov/wac/default.aspx?cite=296-307-49503 (read)
    (GENERAL_INDUSTRY, "15:40", None),
    # unless lengthened (reproduction)
    (IFC_2018, "15:40", None),
    # unless the person who authorises extends it;
    # https://coderedconsultants.com/insights/updated-fire-watch-requirements/ (secondary)
    (NFPA_51B_2014, "15:40", None),
    # items A to G at https://ecode360.com/29708856 (read)
    (LOCAL_HOUR, "16:10", None),
    # monitoring up to 3 h if ordered; same page as the 2014 edition (secondary)
    (NFPA_51B_2019, "16:10", "19:10"),
    # reported at https://enr.com/articles/2706 (secondary)
    (ARMY_ENGINEERS, "16:10", None),
    # torch-applied roofing, Massachusetts; same page as NFPA 51B (secondary)
    (NFPA_241_2022, "17:10", None),
    # a last inspection four hours after the flame: 60 min and 180 more (from memory)
    (CANADA, "16:10", "19:10"),
]


@pytest.mark.parametrize(("rule", "watch_end", "monitor_end"), ENDS, ids=lambda v: str(v)[:24])
def test_watch_ends_as_the_rule_set_in_force_says(rule, watch_end, monitor_end):
    answer = FIRE_WATCH({"last_flame": LAST_FLAME, "rules": [rule]})
    assert (answer["watch_end"], answer["monitor_end"]) == (watch_end, monitor_end)
    assert answer["open_ended"] is (watch_end is None)


def test_of_all_rule_sets_together_the_longest_governs():
    answer = FIRE_WATCH({"last_flame": LAST_FLAME, "rules": [rule for rule, *_ in ENDS]})
    assert answer == {
        "watch_end": "17:10",
        "monitor_end": "19:10",
        "governing_watch": NFPA_241_2022["name"],
        "governing_monitor": NFPA_51B_2019["name"],
        "open_ended": True,
    }


@pytest.mark.parametrize(("rule", "watch_end", "_monitor_end"), ENDS, ids=lambda v: str(v)[:24])
def test_leaving_at_the_end_of_the_watch_gives_the_last_flame_back(rule, watch_end, _monitor_end):
    leave_by = watch_end or "17:10"
    answer = FIRE_WATCH({"leave_by": leave_by, "rules": [rule]})
    assert answer["last_flame_by"] == (LAST_FLAME if watch_end else None)
