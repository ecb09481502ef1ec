"""Mutants around the flame: what burns, who watches, who holds it, and the edge of the roof."""

from tests.unit.installation.mutant import (
    Mutant,
    changed,
    held_up,
    moved,
    put_in,
    steps,
    torch_lit,
    without,
)
from tests.unit.installation.small_jobs import do
from tests.unit.installation.timed_plans import begun, done


def a_cover_left_out(job, plan):
    for step in steps(plan, "cover", thing="vent"):
        yield Mutant(
            step,
            without(plan, step),
            lambda s: {("openings-covered", "torch vent", torch_lit(s)[0])},
        )


def nobody_covers_the_nailer(job, plan):
    """The nailer runs from 2000 on; lap 2 has its middle at 1850, preheating is far out."""
    for step in steps(plan, "cover", thing="nail"):
        yield Mutant(
            step,
            without(plan, step),
            lambda s: {("torch-to-combustible", "torch nail", begun(s, "weld", lap=2)[0])},
        )


def loose_things_left(job, plan):
    for step in steps(plan, "clear"):
        yield Mutant(
            step,
            without(plan, step),
            lambda s: {("combustibles-distance", "torch bags", torch_lit(s)[0])},
        )


def no_rail(job, plan):
    for step in steps(plan, "rail"):
        yield Mutant(step, without(plan, step), lambda s: {at_the_edge(s)})


def at_the_edge(state):
    """Whoever first works at the wall, from the minute they begin."""
    at_wall = ("look", "probe", "measure", "set out", "snap", "cover", "prime")
    first = min(
        (e for e in state.log if e["kind"] == "done" and e["do"] in at_wall),
        key=lambda e: e["since"],
    )
    return "guardrail-height", f"{first['who']} at wall A", first["since"]


def cans_left_open(job, plan):
    """The last cans before the torch comes to the wall."""
    for step in steps(plan, "close cans")[-1:]:
        closed = plan[step][0]
        yield Mutant(
            step,
            without(plan, step),
            lambda s, at=closed: {
                ("wet-primer-to-flame", f"{tool} open can", min(lit))
                for tool in ("torch", "melter")
                if (lit := [m for m in done(s, "light", tool=tool) if m > at])
            },
        )


def film_left_lying(job, plan):
    for step in steps(plan, "bag film")[-1:]:
        at = plan[step][0]
        yield Mutant(
            step,
            without(plan, step),
            lambda s, at=at: {
                ("combustibles-distance", "torch film", min(m for m in torch_lit(s) if m > at))
            },
        )


def no_permit(job, plan):
    for step in steps(plan, "open permit"):
        yield Mutant(
            step,
            without(plan, step),
            lambda s: {("permit-content", "torch", m) for m in torch_lit(s)},
        )


def nobody_watches(job, plan):
    for step in steps(plan, "watch")[:1]:
        yield Mutant(
            step,
            without(plan, step),
            lambda s: {("watchers-per-torch", "watch", torch_lit(s)[0])},
        )


def the_untrained_one_watches(job, plan):
    for step in steps(plan, "watch")[:1]:
        minute = plan[step][0]
        yield Mutant(
            step,
            changed(plan, step, who="noor"),
            lambda s, at=minute: {
                ("watch-duties", "watch noor", at),
                ("watchers-per-torch", "watch", torch_lit(s)[0]),
            },
        )


def the_watch_ends_early(job, plan):
    out = plan[steps(plan, "put out")[-1]][0]
    for after in (1, 60, 111):
        watcher = plan[steps(plan, "watch")[-1]][1]["who"]
        yield Mutant(
            after,
            put_in(plan, out + after, do("end watch", watcher)),
            lambda s, at=out + after: {("fire-watch", "watch", at)},
        )


def the_permit_is_closed_early(job, plan):
    out, step = plan[steps(plan, "put out")[-1]][0], steps(plan, "close permit")[-1]
    for after in (10, 60, 100):
        yield Mutant(
            after,
            moved(plan, step, out + after),
            lambda s: {("fire-watch", "permit", done(s, "close permit")[0])},
        )


def leaving_early(job, plan):
    out = plan[steps(plan, "put out")[-1]][0]
    for after in (10, 60, 100):
        cut = [item for item in plan if item[0] < out + after]
        yield Mutant(
            after,
            [*cut, (out + after, {"do": "leave"})],
            lambda s, at=out + after: {
                ("fire-watch", "watch", at),
                ("last-inspection", "roof", at),
            },
        )


def no_last_look(job, plan):
    for step in steps(plan, "last look"):
        yield Mutant(step, without(plan, step), lambda s: {("last-inspection", "roof", s.ended)})


def leaving_with_the_torch_lit(job, plan):
    out = steps(plan, "put out", tool="torch")[-1]
    minute = plan[out][0]
    yield Mutant(
        out,
        [*plan[:out], (minute, {"do": "leave"})],
        lambda s: {("lit-torch-left", "roof", minute), ("watchers-per-torch", "watch", minute)},
    )


def preheating_close_to_the_wall(job, plan):
    """900 mm from the wall; the sheets that may lie there are not yet cut to size."""
    for step in steps(plan, "light", tool="torch"):
        if step + 1 < len(plan) and plan[step + 1][1]["do"] == "preheat":
            bad = changed(plan, step, off=900)
            yield Mutant(
                step, bad, lambda s: {("film-preheat-distance", "torch", begun(s, "preheat")[0])}
            )


def the_wrong_hand_on_the_torch(job, plan):
    """Dana and Noor, who is not trained, change places for the day."""
    other = {"dana": "noor", "noor": "dana", "ivo": "ivo"}
    bad = [(m, {k: other[v] if k in ("who", "with") else v for k, v in d.items()}) for m, d in plan]
    yield Mutant(
        0, bad, lambda s: {("extinguisher-training", "torch noor", m) for m in torch_lit(s)}
    )


def the_cylinder_too_near(job, plan):
    """4 500 mm from where the torch is lit next."""
    for step in steps(plan, "light", tool="torch"):
        minute, light = plan[step]
        near = do(
            "move gas", light["who"], wall=light["wall"], at=light["at"], off=light["off"] + 4500
        )
        yield Mutant(
            step,
            put_in(held_up(plan, minute, 3), minute, near),
            lambda s, at=minute: {("cylinder-to-burner", "torch", at + 3 + 1)},
        )


def the_extinguisher_too_far(job, plan):
    for step in steps(plan, "light", tool="torch"):
        minute, light = plan[step]
        away = do("move extinguisher", light["who"], thing="ext1", wall="A", at=0, off=30_000)
        yield Mutant(
            step,
            put_in(held_up(plan, minute, 2), minute, away),
            lambda s, at=minute: {("extinguisher-distance", "torch", at + 2 + 1)},
        )
