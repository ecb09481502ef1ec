"""Small jobs made by hand, short ways to write decisions, and plays through them.

Air of 20 °C and 50 % has its dew point at 9.3 °C (Magnus, WMO-No. 8), so a face in the shade at
19 °C lies far above it. Minutes of work are written out here so that no sum depends on a default.
"""

from __future__ import annotations

from copy import deepcopy

from trainer.installation.limits import limits_of
from trainer.installation.read_job import read_job
from trainer.installation.run import decide
from trainer.installation.state import begin
from trainer.pack.rulebook import load_rulebook

LIMITS = limits_of(load_rulebook().in_force())

MINUTES = {
    "look": 4, "probe": 4, "measure": 3, "touch": 1, "check rolls": 2, "ask": 3, "last look": 5,
    "cover": 8, "clear": 4, "rail": 15, "dry": 10, "prime a metre": 2, "snap": 3, "set out": 5,
    "cut a strip": 2, "preheat a strip": 2, "lay": 8, "lay together": 5, "roll": 2, "trim": 3,
    "corner sheet": 9, "fill": 4, "light": 1, "put out": 3, "gusset": 6, "weld": 3, "strip": 6,
    "seal": 8, "move gas": 3, "change gas": 5, "move extinguisher": 2, "close cans": 1,
    "bag film": 2, "open permit": 5, "close permit": 4, "alarm": 10, "fetch warm rolls": 25,
    "heat the melter": 20,
}  # fmt: skip

_AIR = [{"at": "06:00", "air_c": 20, "rh_pct": 50}]
_WALL = {
    "id": "A",
    "length_mm": 2800,
    "height_mm": 300,
    "top_mm": 250,
    "cant_mm": 50,
    "field_laps": [[400, 500], [1350, 1450], [2350, 2450]],
    "rail": True,
}
_JOB = {
    "id": "small",
    "version": 1,
    "level": 1,
    "title": "A small wall",
    "brief": "One wall of three sheets.",
    "start": "07:30",
    "leave_by": "16:30",
    "walls": [_WALL],
    "sheet": {"width_mm": 1000, "side_lap_mm": 100, "least_mm": 300, "roll_mm": 8000},
    "rolls": [{"id": "r1"}, {"id": "r2"}],
    "paper": {
        "dry_min": 30, "plan_min": 120, "latest_min": 180, "coldest_c": 5,
        "slower": [[15, 100], [-50, 150]],
    },
    "crew": [
        {"id": "dana", "name": "Dana", "torch": True, "watch": True},
        {"id": "ivo", "name": "Ivo", "watch": True},
        {"id": "noor", "name": "Noor"},
    ],
    "minutes": MINUTES,
    "gas": {"minutes": 60, "wall": "A", "at_mm": 1400, "off_mm": 12400},
    "melter": {"wall": "A", "at_mm": 1400, "off_mm": 7700},
    "extinguishers": [{"id": "ext1", "wall": "A", "at_mm": 1400, "off_mm": 4000}],
    "by_eye_mm": 60,
    "weather": {"path": _AIR, "forecast": {"air": _AIR}},
}  # fmt: skip


def plain_job(wall=None, weather=None, **changes):
    """The small job as a plain mapping; ``wall`` and ``weather`` change parts of its own."""
    plain = deepcopy(_JOB)
    plain["walls"][0] |= wall or {}
    plain["weather"] |= weather or {}
    return plain | deepcopy(changes)


def small_job(**changes):
    return read_job(plain_job(**changes))


def corner_job(kind="inside", **changes):
    """Wall A of 2300 mm and wall B of 1300 mm with a corner between them.

    Wall sheets cover A from 0 to 1900 (two sheets) and B from 400 to 1300 (one): the corner's
    sheets lie on A from 1800 and on B up to 500.
    """
    a = deepcopy(_WALL) | {"length_mm": 2300, "field_laps": [[400, 500], [1350, 1450]]}
    b = deepcopy(_WALL) | {"id": "B", "length_mm": 1300, "field_laps": [[800, 900]]}
    return read_job(plain_job(**{"walls": [a, b], "corners": [kind], **changes}))


def do(action, who="dana", **fields):
    """A decision; the fields ``from`` and ``to`` are given as ``stretch=(from, to)``."""
    stretch = fields.pop("stretch", None)
    if stretch:
        fields["from"], fields["to"] = stretch
    help_by = fields.pop("helped_by", None)
    if help_by:
        fields["with"] = help_by
    return {"do": action, "who": who, **fields}


def wait(minutes=0):
    return {"do": "wait", "minutes": minutes}


LEAVE = {"do": "leave"}
STOP = {"do": "stop"}


def played(job, *decisions, state=None, limits=LIMITS):
    """The state after the decisions, from the beginning or from a state."""
    state = begin(job) if state is None else state
    for decision in decisions:
        state = decide(job, limits, state, decision)
    return state


def alone(job, *decisions, state=None, limits=LIMITS):
    """Like ``played``, but nobody begins before everybody is done; a wait lasts its full time."""
    state = begin(job) if state is None else state
    for decision in decisions:
        until = state.now + decision.get("minutes", 0)
        state = decide(job, limits, state, decision)
        while state.ended is None and (_somebody_busy(state) or state.now < until):
            state = decide(job, limits, state, wait(max(0, until - state.now)))
    return state


def _somebody_busy(state):
    return any(not person.free for person in state.people.values())


def found(state):
    """Every finding as (subject, place, minute)."""
    return [(finding.subject, finding.place, finding.at) for finding in state.findings]


def subjects(state):
    return {finding.subject for finding in state.findings}


def standing(state):
    """The subjects of what is still wrong."""
    return {finding.subject for finding in state.findings if finding.until is None}


CLEAN = [
    do("look", wall="A"),  # 7:30–7:34
    do("cut", "noor", strips=3, roll="r1"),  # 7:30–7:36
    do("snap", "ivo", wall="A", distance=160),  # 7:30–7:33
    do("set out", "ivo", wall="A", laps=[900, 1800], lap_mm=100),  # 7:33–7:38
    do("prime", wall="A", stretch=(0, 2800)),  # 7:34–7:40
    do("open permit", "noor"),  # 7:36–7:41
    do("watch", "ivo"),  # from 7:38
    do("close cans"),  # 7:40–7:41
    do("light", wall="A", at=1400, off=7700),  # 7:41–7:42
    wait(),
    do("preheat", strips=3),  # 7:42–7:48
    wait(),
    do("put out"),  # out at 7:48
    wait(),
    wait(19),  # 7:51–8:10; dry at 7:39:36 + 30 min
    do("lay", wall="A", sheet=0, through=2, rolling=True),  # 8:10–8:40
    wait(),
    do("bag film"),
    wait(),
    do("light", wall="A", at=1400, off=0),  # 8:42–8:43
    wait(),
    do("weld", wall="A", lap=1, through=2),  # 8:43–8:49
    wait(),
    do("put out"),  # out at 8:49, 529 min
    do("last look", "noor"),
    wait(),
    wait(),
    wait(115),  # 8:54–10:49
    do("close permit"),
    wait(),
    LEAVE,
]
"""A way through the small job that ends with nothing missing and nothing found."""
