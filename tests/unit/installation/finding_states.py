"""States made to measure: a flame, a sheet, a corner, just inside a limit or just past it."""

from __future__ import annotations

import math
from dataclasses import replace

from tests.unit.installation.small_jobs import LIMITS, alone, corner_job, do, small_job, wait

READY = [do("open permit", "noor"), do("watch", "ivo")]
FAR = {"wall": "A", "at": 1400, "off": 7700}
MARKED = [
    do("snap", wall="A", distance=160),
    do("set out", wall="A", laps=[900, 1800], lap_mm=100),
]


def lit(job, *before, spot=FAR, who="dana"):
    return alone(job, *READY, *before, do("light", who, **spot))


def marked(distance=160, laps=(900, 1800), lap_mm=100):
    return [
        do("snap", wall="A", distance=distance),
        do("set out", wall="A", laps=list(laps), lap_mm=lap_mm),
    ]


def laid(job, *, marks=MARKED, prime=(0, 2800), waits=60, cut_first=True, half="top"):
    """The first sheet laid and rolled after so many minutes from the end of priming."""
    cut = [do("cut", strips=1, roll="r1")]
    before = [*marks, *(cut if cut_first else []), do("prime", wall="A", stretch=prime)]
    state = alone(job, *before, do("close cans"), *([wait(waits)] if waits else []))
    return alone(
        job,
        *([] if cut_first else cut),
        do("lay", wall="A", sheet=0, half=half),
        do("roll", wall="A", sheet=0),
        state=state,
    )


def air(air_c, rh_pct=50):
    hour = [{"at": "06:00", "air_c": air_c, "rh_pct": rh_pct}]
    return {"path": hour, "forecast": {"air": hour}}


def loose_at(off_mm):
    return small_job(
        loose=[{"id": "bags", "wall": "A", "at_mm": 1400, "off_mm": off_mm, "what": "bags"}]
    )


def opening_at(off_mm):
    return small_job(
        openings=[{"id": "vent", "wall": "A", "at_mm": 1400, "off_mm": off_mm, "what": "vent"}]
    )


def nailer(from_mm=0):
    part = {"id": "nail", "from_mm": from_mm, "to_mm": 2800, "what": "timber nailer"}
    return small_job(wall={"behind": [part]})


def gas_at(off_mm):
    return small_job(gas={"minutes": 60, "wall": "A", "at_mm": 1400, "off_mm": off_mm})


def extinguisher_at(off_mm):
    return small_job(extinguishers=[{"id": "ext1", "wall": "A", "at_mm": 1400, "off_mm": off_mm}])


def after_flame(*then, watched=120):
    """Lit for a minute at 7:36, out at once; then so many minutes of watch; then the rest."""
    job = small_job()
    state = lit(job, do("last look", "noor"))
    state = alone(job, do("put out"), do("last look", "noor"), state=state)
    left = state.last_flame + watched - state.now
    return alone(job, wait(left), *then, state=state)


def corner_laid(*between, reach=150):
    job = corner_job()
    marks = [do("snap", wall="A", distance=160), do("snap", wall="B", distance=160)]
    return alone(
        job,
        *marks,
        do("cut", strips=2, roll="r1"),
        do("prime", wall="A", stretch=(1800, 2300)),
        do("prime", wall="B", stretch=(0, 500)),
        do("close cans"),
        wait(30),
        do("lay corner", corner=0, number=1),
        do("roll corner", corner=0, number=1),
        *between,
        do("lay corner", corner=0, number=2),
        do("roll corner", corner=0, number=2),
        do("bag film"),
        *READY,
        do("light", wall="A", at=2000, off=1200),
        do("gusset", corner=0, reach=reach),
    )


def low_wall(height_mm, drop_mm=8000, **more):
    return small_job(wall={"rail": False, "height_mm": height_mm, "drop_mm": drop_mm, **more})


def with_limit(subject, value):
    return LIMITS | {subject: replace(LIMITS[subject], value=value)}


def rain(*times):
    return small_job(weather={"rain": list(times)})


def rh_for_spread(air_c, spread_k):
    """The humidity at which a face 1 K below the air lies so far above the dew point.

    Magnus over water, 17.62 and 243.12 °C: WMO-No. 8, Annex 4.B.
    """
    dew, magnus = air_c - 1 - spread_k, lambda t: math.exp(17.62 * t / (243.12 + t))
    return 100 * magnus(dew) / magnus(air_c)


PRIME = do("prime", wall="A", stretch=(0, 2800))


def lit_and_preheat(off):
    job = small_job()
    state = lit(job, do("cut", strips=1, roll="r1"), spot=FAR | {"off": off})
    return alone(job, do("preheat", strips=1), state=state)


def lit_by_unrolled(off):
    job = small_job()
    state = laid(job)
    state.sheets["A:0"].rolled_at = None
    spot = {"wall": "A", "at": 500, "off": off}
    return alone(job, do("bag film"), *READY, do("light", **spot), state=state)


def two_laid(lap_at, lap_mm):
    job = small_job()
    return alone(
        job,
        *marked(laps=[lap_at, 1250, 1900] if lap_at < 1000 else [300, lap_at, 1900], lap_mm=lap_mm),
        do("cut", strips=4, roll="r1"),
        PRIME,
        wait(40),
        *(do("lay", wall="A", sheet=k) for k in ((0, 1) if lap_at < 1000 else (1, 2))),
    )
