"""Every subject of the rule book: how to get a state that has the finding, and its twin."""

from __future__ import annotations

import math

from tests.unit.installation.finding_states import (
    FAR,
    MARKED,
    PRIME,
    after_flame,
    air,
    corner_laid,
    extinguisher_at,
    gas_at,
    laid,
    lit,
    lit_and_preheat,
    lit_by_unrolled,
    loose_at,
    low_wall,
    marked,
    nailer,
    opening_at,
    rain,
    rh_for_spread,
    two_laid,
    with_limit,
)
from tests.unit.installation.small_jobs import LEAVE, alone, do, small_job, wait

SMOKE = {"at": "07:40", "kind": "smoke", "wall": "A"}
FOOT = {"at": "07:50", "kind": "footprints", "wall": "A", "from_mm": 400, "to_mm": 600}
DRY = do("dry", wall="A", stretch=(0, 2800))
DAMP = [{"from_mm": 200, "to_mm": 700, "dry_at": "15:00"}]

CASES = {
    # 5 °C, RP-2025: a face in the shade is 1 K colder than the air
    "adhesive-lap-temperature": (
        lambda: laid(small_job(weather=air(5))), lambda: laid(small_job(weather=air(6))),
    ),
    # a cold roll below 10 °C, ARMA; waits long enough to dry below 15 °C
    "cold-storage": (
        lambda: laid(small_job(weather=air(9), rolls=[{"id": "r1", "cold": True}])),
        lambda: laid(small_job(weather=air(10), rolls=[{"id": "r1", "cold": True}])),
    ),
    # 10 700 mm, 29 CFR 1910.252; the torch is 7 700 mm out
    "combustibles-distance": (
        lambda: lit(loose_at(7700 + 10_699)), lambda: lit(loose_at(7700 + 10_700)),
    ),
    # 15 ft = 4 572 mm
    "cylinder-to-burner": (
        lambda: lit(gas_at(7700 + 4571)), lambda: lit(gas_at(7700 + 4572)),
    ),
    "defects-rejected": (
        lambda: laid(small_job(), half="bottom"), lambda: laid(small_job(), half="top"),
    ),
    # 60 min here: rain over at 7:25; marks, primer, strip take until 7:46; laid at 8:24 or 8:25
    "dry-since-rain": (
        lambda: alone(small_job(weather={"rain": [["07:20", "07:25"]]}), *MARKED, PRIME,
                      do("cut", strips=1, roll="r1"), wait(38), do("lay", wall="A", sheet=0),
                      limits=with_limit("dry-since-rain", 60)),
        lambda: alone(small_job(weather={"rain": [["07:20", "07:25"]]}), *MARKED, PRIME,
                      do("cut", strips=1, roll="r1"), wait(39), do("lay", wall="A", sheet=0),
                      limits=with_limit("dry-since-rain", 60)),
    ),
    "end-of-day-seal": (
        lambda: alone(small_job(), LEAVE, state=laid(small_job())),
        lambda: alone(small_job(), do("seal", wall="A"), LEAVE, state=laid(small_job())),
    ),
    # 30 ft = 9 144 mm
    "extinguisher-distance": (
        lambda: lit(extinguisher_at(7700 + 9145)), lambda: lit(extinguisher_at(7700 + 9144)),
    ),
    "extinguisher-training": (
        lambda: lit(small_job(), who="noor"), lambda: lit(small_job(), who="dana"),
    ),
    # 1 000 mm, common practice, no source
    "film-preheat-distance": (
        lambda: lit_and_preheat(999), lambda: lit_and_preheat(1000),
    ),
    # 120 min: the rule book names NFPA editions as "from memory" or secondary
    "fire-watch": (lambda: after_flame(LEAVE, watched=119), lambda: after_flame(LEAVE)),
    "flame-to-unclosed": (
        lambda: lit_by_unrolled(999), lambda: lit_by_unrolled(1000),
    ),
    # 39 in less 3 in: the rule book's 1 000 mm
    "guardrail-height": (
        lambda: alone(low_wall(999), do("look", wall="A")),
        lambda: alone(low_wall(1000), do("look", wall="A")),
    ),
    # 4 in = 101.6 mm
    "gusset-cover": (
        lambda: corner_laid(do("trim", corner=0), reach=101),
        lambda: corner_laid(do("trim", corner=0), reach=102),
    ),
    # 4 in = 101.6 mm beside the field lap from 1350 to 1450: laps 1149–1249 and 1148–1248
    "lap-clearance": (lambda: two_laid(1149, 100), lambda: two_laid(1148, 100)),
    # 4 in = 101.6 mm beyond the cant of 50 mm
    "lap-onto-field": (
        lambda: laid(small_job(), marks=marked(distance=151)),
        lambda: laid(small_job(), marks=marked(distance=152)),
    ),
    "last-inspection": (
        lambda: alone(small_job(), do("put out"), wait(120), LEAVE,
                      state=lit(small_job(), do("last look", "noor"))),
        lambda: after_flame(LEAVE),
    ),
    "lit-torch-left": (
        lambda: alone(small_job(), do("measure", wall="A"), state=lit(small_job())),
        lambda: alone(small_job(), do("measure", "noor", wall="A"), state=lit(small_job())),
    ),
    "openings-covered": (
        lambda: lit(opening_at(7700 + 10_699)), lambda: lit(opening_at(7700 + 10_700)),
    ),
    "permit-content": (
        lambda: alone(small_job(), do("watch", "ivo"), do("light", **FAR)),
        lambda: lit(small_job()),
    ),
    "primed-surfaces": (
        lambda: laid(small_job(), prime=(0, 999)), lambda: laid(small_job(), prime=(0, 1000)),
    ),
    # footprints where the sheet comes, or beside it on sheet 2
    "primer-ahead": (
        lambda: laid(small_job(happenings=[FOOT])),
        lambda: laid(small_job(happenings=[FOOT | {"from_mm": 1000, "to_mm": 1400}])),
    ),
    # latest 180 min: primed from 7:40 (6 min), cans 1 min, down after 8 min
    "primer-never-after": (
        lambda: laid(small_job(), waits=166), lambda: laid(small_job(), waits=165),
    ),
    # the first metre of 0–1000 is done after 2 min and dry 30 min later; cans 1 min
    "primer-touch-dry": (
        lambda: laid(small_job(), prime=(0, 1000), waits=28),
        lambda: laid(small_job(), prime=(0, 1000), waits=29),
    ),
    "relative-humidity": (
        lambda: alone(small_job(weather=air(20, 86)), PRIME),
        lambda: alone(small_job(weather=air(20, 85)), PRIME),
    ),
    # 30 min, UFGS 07550: cut at 7:38–7:40, then 6 + 1 min and the wait
    "relaxing-time": (
        lambda: laid(small_job(), waits=22), lambda: laid(small_job(), waits=23),
    ),
    # 3 in = 76.2 mm
    "side-lap": (lambda: two_laid(650, 76), lambda: two_laid(650, 77)),
    # 20 °C, face 19 °C: 3 K above the dew point at 77.9 %
    "surface-above-dew-point": (
        lambda: alone(small_job(weather=air(20, math.ceil(rh_for_spread(20, 3)))), PRIME),
        lambda: alone(small_job(weather=air(20, math.floor(rh_for_spread(20, 3)))), PRIME),
    ),
    "t-joint-cut": (
        lambda: corner_laid(), lambda: corner_laid(do("trim", corner=0)),
    ),
    # 3 ft = 915 mm
    "torch-to-combustible": (
        lambda: lit(nailer(), spot={"wall": "A", "at": 1400, "off": 914}),
        lambda: lit(nailer(), spot={"wall": "A", "at": 1400, "off": 915}),
    ),
    "watch-duties": (
        lambda: alone(small_job(), do("watch", "noor")),
        lambda: alone(small_job(), do("watch", "ivo")),
    ),
    "watchers-per-torch": (
        lambda: alone(small_job(), do("open permit"), do("light", **FAR)),
        lambda: lit(small_job()),
    ),
    # 25 ft = 7 620 mm from the wall; the can stands at 500 mm and is closed
    "wet-primer-to-flame": (
        lambda: lit(small_job(), PRIME, do("close cans"), spot=FAR | {"off": 7619}),
        lambda: lit(small_job(), PRIME, do("close cans"), spot=FAR | {"off": 7620}),
    ),
    "wet-surface": (
        lambda: alone(small_job(wall={"damp": DAMP}), PRIME),
        lambda: alone(small_job(wall={"damp": DAMP}), DRY, PRIME),
    ),
    "wet-weather": (
        lambda: alone(rain(["07:25", "07:40"]), wait(9), PRIME),
        lambda: alone(rain(["07:25", "07:40"]), wait(10), PRIME),
    ),
}  # fmt: skip
VALUES_ONLY = {
    # judged by another subject's finding: its twin is in test_other_limits_of_a_finding
    "cold-storage-from": "cold-storage",
    "flame-free-band": "torch-to-combustible",
    "unprotected-edge-height": "guardrail-height",
}
