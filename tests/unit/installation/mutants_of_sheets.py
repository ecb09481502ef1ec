"""Mutants of primer, sheets, laps and corners."""

from tests.unit.installation.mutant import (
    Mutant,
    changed,
    held_up,
    put_in,
    sheets_of,
    steps,
    without,
)
from tests.unit.installation.small_jobs import do
from tests.unit.installation.timed_plans import begun, done


def a_lap_of_60(job, plan):
    for step in steps(plan, "set out"):
        wall = plan[step][1]["wall"]
        yield Mutant(step, changed(plan, step, lap_mm=60), lambda s, w=wall: narrow_laps(s, w))


def narrow_laps(state, wall):
    """A lap between wall sheets is there when the later of its two sheets is down."""
    down = {sheet.id: sheet.laid_at for sheet in state.sheets.values()}
    count = len(state.layouts[wall]["laps"])
    return {
        ("side-lap", f"lap {wall}:{k}", max(down[f"{wall}:{k - 1}"], down[f"{wall}:{k}"]))
        for k in range(1, count + 1)
    }


def a_line_at_80(job, plan):
    for step in steps(plan, "snap"):
        wall = plan[step][1]["wall"]
        bad = changed(plan, step, distance=80 + job.wall(wall).cant_mm)
        yield Mutant(
            step,
            bad,
            lambda s, w=wall: {("lap-onto-field", x.id, x.laid_at) for x in sheets_of(s, w)},
        )


def no_line_at_all(job, plan):
    for step in steps(plan, "snap"):
        wall = plan[step][1]["wall"]
        yield Mutant(
            step,
            without(plan, step),
            lambda s, w=wall: {("lap-onto-field", x.id, x.laid_at) for x in sheets_of(s, w)},
        )


def priming_the_damp(job, plan):
    for step in steps(plan, "dry"):
        yield Mutant(
            step, without(plan, step), lambda s: {("wet-surface", "primer 1", begun(s, "prime")[0])}
        )


def a_sheet_not_rolled(job, plan):
    """Near a torch or not, it is open when everybody leaves."""
    for step in steps(plan, "roll"):
        d = plan[step][1]
        yield Mutant(
            step,
            without(plan, step),
            lambda s, d=d: (
                {("end-of-day-seal", f"wall {d['wall']}", s.ended)} | unrolled_near_the_torch(s, d)
            ),
        )


def unrolled_near_the_torch(state, d):
    """The first weld beside a sheet brings the torch onto it: nothing between them."""
    beside = [
        m for k in (d["sheet"], d["sheet"] + 1) for m in begun(state, "weld", wall=d["wall"], lap=k)
    ]
    name = f"torch {d['wall']}:{d['sheet']}"
    near = [f for f in state.findings if f.subject == "flame-to-unclosed" and f.place == name]
    assert near and near[0].at <= min(beside)
    return {("flame-to-unclosed", name, near[0].at)}


def no_film_melted(job, plan):
    for step in steps(plan, "preheat"):
        yield Mutant(step, without(plan, step), open_laps)


def open_laps(state):
    """A lap whose film was not melted is open once both its sheets are rolled."""
    rolled = {sheet.id: sheet.rolled_at for sheet in state.sheets.values()}
    return {
        ("defects-rejected", f"lap {w}:{k}", max(rolled[f"{w}:{k - 1}"], rolled[f"{w}:{k}"]))
        for w in state.layouts
        for k in range(1, len(state.layouts[w]["laps"]) + 1)
        if f"{w}:{k - 1}" in rolled and f"{w}:{k}" in rolled
    }


def the_bottom_half_first(job, plan):
    for step in steps(plan, "lay"):
        d = plan[step][1]
        name = f"{d['wall']}:{d['sheet']}"
        yield Mutant(
            step,
            changed(plan, step, half="bottom"),
            lambda s, n=name: {("defects-rejected", n, s.sheets[n].laid_at)},
        )


def a_piece_not_primed(job, plan):
    """The last 100 mm of the first stretch are left out; whatever comes to lie there finds it."""
    step = steps(plan, "prime")[0]
    bad = changed(plan, step, **{"from": plan[step][1]["from"] + 100})
    yield Mutant(step, bad, lambda s: {("primed-surfaces", "A:0", s.sheets["A:0"].laid_at)})


def laid_too_early(job, plan):
    """The first sheet right after the roller, by the same person."""
    step, primed = steps(plan, "lay")[0], steps(plan, "prime")[0]
    minute, prime = plan[primed]
    at = minute + -(-2 * (prime["to"] - prime["from"]) // 1000)
    d = plan[step][1] | {"who": prime["who"]}
    d.pop("with", None)
    name = f"{d['wall']}:{d['sheet']}"
    yield Mutant(
        step,
        put_in(without(plan, step), at, d),
        lambda s, n=name: {("primer-touch-dry", n, at + 8)},
    )


def laid_too_late(job, plan):
    """Everything from the first sheet on three hours later."""
    first = steps(plan, "lay", "lay corner")[0]
    late = [*plan[:first], *((minute + 185, d) for minute, d in plan[first:])]
    name = f"{plan[first][1].get('wall')}:{plan[first][1].get('sheet')}"
    yield Mutant(first, late, lambda s, n=name: {("primer-never-after", n, s.sheets[n].laid_at)})


def cut_and_laid_at_once(job, plan):
    """The strips are cut just before the first sheet; so none can be preheated."""
    first, cut = steps(plan, "lay", "lay corner")[0], steps(plan, "cut")[0]
    strips, (minute, lay) = plan[cut][1]["strips"], plan[first]
    later = held_up(without(plan, cut), minute, 2 * strips)
    yield Mutant(
        cut,
        put_in(later, minute, plan[cut][1] | {"who": lay["who"]}),
        lambda s: {
            ("relaxing-time", x.id, x.laid_at)
            for x in s.sheets.values()
            if x.begun < minute + 2 * strips + 30
        },
    )


def no_trim(job, plan):
    for step in steps(plan, "trim"):
        yield Mutant(
            step,
            without(plan, step),
            lambda s: {("t-joint-cut", "corner-0", s.sheets["corner-0:2"].laid_at)},
        )


def no_fill(job, plan):
    """The gusset brings the torch to the corner's point."""
    for step in steps(plan, "fill"):
        yield Mutant(
            step,
            without(plan, step),
            lambda s: {("flame-to-unclosed", "torch corner-0", first_near_corner(s))},
        )


def first_near_corner(state):
    near = [f.at for f in state.findings if f.place == "torch corner-0"]
    assert near and near[0] <= min(begun(state, "gusset"))
    return near[0]


def a_small_gusset(job, plan):
    for step in steps(plan, "gusset"):
        yield Mutant(
            step,
            changed(plan, step, reach=90),
            lambda s: {("gusset-cover", "corner-0", done(s, "gusset")[0])},
        )


def rolled_after_the_fill(job, plan):
    for step in steps(plan, "fill"):
        later = put_in(plan, plan[step][0] + 4, do("roll corner", "ivo", corner=0, number=2))
        yield Mutant(
            step,
            put_in(later, plan[step][0] + 6, do("watch", "ivo")),
            lambda s: {("flame-to-unclosed", "torch corner-0", first_near_corner(s))},
        )
