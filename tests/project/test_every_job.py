"""Every job of the pack, and three written after the code, played by the book and carelessly.

By the book nothing is ever wrong and nothing is left undone, in whichever order the work goes. A
careless day is looked at a second time by ``dangers``, which shares nothing with the rule book's
checks: where it sees one, the findings must name it.
"""

from pathlib import Path

import pytest

from trainer.installation.foreman import Way
from trainer.installation.laps import missing
from trainer.installation.limits import limits_of
from trainer.installation.play import by_the_book, play, play_by
from trainer.pack.jobs import clear_mm_of, job_of
from trainer.pack.pack import load_pack
from trainer.pack.positions import read

PACK = load_pack()
RULES = PACK.book.in_force()
LIMITS, CLEAR_MM = limits_of(RULES), clear_mm_of(RULES)
WRITTEN_LATER = sorted((Path(__file__).parent / "jobs_written_later").glob("*.yaml"))
LATER = {path.stem: job_of(read(path), CLEAR_MM) for path in WRITTEN_LATER}
EVERY = {**PACK.jobs, **LATER}
MANY = 200

every_job = pytest.mark.parametrize("name", EVERY)
BACKWARDS = Way(from_right=True)


def drawn(name, seed):
    return EVERY[name].drawn(seed, CLEAR_MM)


def unclean(name, seed, way=None):
    """What is wrong at the end of a day by the book; [] for a clean one."""
    job = drawn(name, seed)
    last = play_by(job, LIMITS, by_the_book(job, LIMITS, way)).last
    wrong = [f"{seed}: {f.subject} {f.place} at {f.at}" for f in last.findings]
    return wrong + [f"{seed}: missing {thing}" for thing in missing(job, last)]


def order_of(name, seed, way=None):
    """The sheets in the order in which they went down, and how many laid each."""
    job = drawn(name, seed)
    day = play_by(job, LIMITS, by_the_book(job, LIMITS, way))
    return [(sheet.id, sheet.laid_at) for sheet in day.last.sheets.values()]


def test_there_are_three_written_later():
    assert len(LATER) == 3 and not set(LATER) & set(PACK.jobs)


@pytest.mark.parametrize("name", LATER)
@pytest.mark.parametrize("seed", range(3))
def test_a_job_that_the_code_has_never_seen_ends_clean(name, seed):
    assert unclean(name, seed) == []


@every_job
def test_another_order_of_work_ends_clean_as_well(name):
    assert unclean(name, 1) == [] and unclean(name, 1, BACKWARDS) == []
    assert order_of(name, 1) != order_of(name, 1, BACKWARDS)


@every_job
@pytest.mark.parametrize("seed", range(2))
def test_a_careless_day_is_caught_where_it_is_dangerous(name, seed):
    assert uncaught(name, seed) == []


@pytest.mark.long
@every_job
def test_by_the_book_is_clean_on_two_hundred_seeds(name):
    assert [wrong for seed in range(MANY) for wrong in unclean(name, seed)] == []


@pytest.mark.long
@every_job
def test_backwards_is_clean_on_forty_seeds(name):
    assert [wrong for seed in range(40) for wrong in unclean(name, seed, BACKWARDS)] == []


@pytest.mark.long
@every_job
def test_careless_is_caught_on_two_hundred_seeds(name):
    assert [wrong for seed in range(MANY) for wrong in uncaught(name, seed)] == []


@pytest.mark.long
@every_job
def test_careless_is_dangerous_often_enough_to_count(name):
    assert sum(bool(dangers_of(name, seed)[0]) for seed in range(20)) >= 15


# ------------------------------------------------------------------ a second look at a day


def uncaught(name, seed):
    """Dangers of a careless day that no finding names."""
    dangers, found = dangers_of(name, seed)
    return sorted(f"{seed}: {subject}" for subject in dangers - found)


def dangers_of(name, seed):
    job = drawn(name, seed)
    day = play(job, LIMITS, "careless")
    seen = set()
    for before, after in zip(day.states, day.states[1:], strict=False):
        seen |= set(around_the_flame(job, after)) | set(new_sheets(job, before, after))
    last = day.last
    out = last.last_flame
    if out is not None and last.ended < out + 120:
        seen.add("fire-watch")
    if last.flames:
        seen.add("lit-torch-left")
    if out is not None and (last.looked_round or 0) < out:
        seen.add("last-inspection")
    if last.sheets and len(last.welds) < len(last.sheets) - 1 and not last.sealed:
        seen.add("end-of-day-seal")
    return seen, {finding.subject for finding in last.findings}


def spot(job, wall, at, off=0):
    """Coordinates by complex numbers: along the first wall 1, the roof on its right."""
    here, along = 0, 1
    for i, part in enumerate(job.walls):
        if part.id == wall:
            return here + along * (at - 1j * off)
        here += along * part.length_mm
        along *= -1j if job.corners[i] == "inside" else 1j
    raise AssertionError(wall)


def around_the_flame(job, state):
    """What is too near a flame now (limits of the rule book, whole millimetres)."""
    for tool, flame in state.flames.items():
        at = spot(job, flame.spot.wall, flame.spot.at_mm, flame.spot.off_mm)
        yield from things_that_burn(job, state, at)
        if tool == "torch" and state.film is not None:
            yield "combustibles-distance"
        if state.cans is not None and abs(at - of(job, state.cans_at)) < 7619:
            yield "wet-primer-to-flame"
        if state.permit != "open":
            yield "permit-content"
        if not any(p.watching and job.hand(p.id).watch for p in state.people.values()):
            yield "watchers-per-torch"


def of(job, where):
    return spot(job, where.wall, where.at_mm, where.off_mm)


def things_that_burn(job, state, at):
    away = {*state.cleared, *state.covered}
    for subject, things in (
        ("combustibles-distance", job.loose),
        ("openings-covered", job.openings),
    ):
        if any(t.id not in away and abs(at - of(job, t.spot)) < 10_699 for t in things):
            yield subject
    for wall in job.walls:
        for part in wall.behind:
            points = (spot(job, wall.id, mm) for mm in range(part.from_mm, part.to_mm + 1, 50))
            if part.id not in state.covered and min(abs(at - p) for p in points) < 914:
                yield "torch-to-combustible"


def new_sheets(job, before, after):
    """Sheets that went down between two states, and the primer they went onto."""
    for name, sheet in after.sheets.items():
        if name in before.sheets:
            continue
        if sheet.second is None and not sheet.laying.bare_mm and wet_at_its_middle(before, sheet):
            yield "primer-touch-dry"
        if (
            name.endswith(":2")
            and name.startswith("corner")
            and after.corners[int(name[7])].trimmed is None
        ):
            yield "t-joint-cut"


def wet_at_its_middle(state, sheet):
    """Whether the newest primer in the middle of a sheet was not dry when it was begun."""
    middle = (sheet.from_mm + sheet.to_mm) // 2
    coats = [c for c in state.coats if c.wall == sheet.wall and c.from_mm <= middle < c.to_mm]
    if not coats:
        return False
    coat = coats[-1]
    primed = coat.start_ms / 1000 + coat.per_m * (middle - coat.from_mm) / 1000
    return sheet.begun < primed + coat.dry_min
