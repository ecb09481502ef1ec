"""From a clean plan, one rule is broken at every step where it can be: that one is found, there.

A mutant is a plan with one decision changed, left out, put in or taken at another time. Each says
which findings must appear (subject, place, minute) and which other subjects may follow from them:
a torch near what burns makes it smoulder, a lap that was never closed is open when all leave.
"""

import pytest

from tests.unit.installation import mutants_of_flame as flame
from tests.unit.installation import mutants_of_sheets as sheets
from tests.unit.installation.small_jobs import found
from tests.unit.installation.timed_plans import JOBS, replayed, timed_plan
from trainer.installation.laps import missing

PLANS = {name: timed_plan(job) for name, job in JOBS.items()}

# kind of mutant → the jobs it can be made of, and the subjects that may be found
WALLS, CORNERS = ("wall", "site"), ("inside", "outside")
EVERY = (*WALLS, *CORNERS)
OPEN_AT_NIGHT = {"end-of-day-seal"}
TABLE = {
    sheets.a_lap_of_60: (EVERY, {"side-lap"}),
    sheets.a_line_at_80: (EVERY, {"lap-onto-field"}),
    sheets.no_line_at_all: (EVERY, {"lap-onto-field"}),
    flame.a_cover_left_out: (("site",), {"openings-covered"}),
    # it smoulders, smokes after 10 min and nobody looks
    flame.nobody_covers_the_nailer: (("site",), {"torch-to-combustible", "watch-duties"}),
    flame.loose_things_left: (("site",), {"combustibles-distance"}),
    flame.no_rail: (("site",), {"guardrail-height"}),
    sheets.priming_the_damp: (("site",), {"wet-surface"}),
    flame.cans_left_open: (EVERY, {"wet-primer-to-flame"}),
    flame.film_left_lying: (EVERY, {"combustibles-distance"}),
    flame.no_permit: (EVERY, {"permit-content"}),
    flame.nobody_watches: (EVERY, {"watchers-per-torch", "fire-watch"}),
    flame.the_untrained_one_watches: (EVERY, {"watch-duties", "watchers-per-torch", "fire-watch"}),
    flame.the_watch_ends_early: (EVERY, {"fire-watch"}),
    flame.the_permit_is_closed_early: (EVERY, {"fire-watch"}),
    flame.leaving_early: (EVERY, {"fire-watch", "last-inspection"}),
    flame.no_last_look: (EVERY, {"last-inspection"}),
    # nobody watches what still burns, and nobody looked round since the flame before
    flame.leaving_with_the_torch_lit: (
        EVERY,
        {"lit-torch-left", "watchers-per-torch", "last-inspection"},
    ),
    sheets.a_sheet_not_rolled: (EVERY, {"flame-to-unclosed", *OPEN_AT_NIGHT}),
    # the torch that closes the lap comes near it first
    sheets.no_film_melted: (EVERY, {"defects-rejected", "flame-to-unclosed"}),
    flame.preheating_close_to_the_wall: (EVERY, {"film-preheat-distance"}),
    sheets.the_bottom_half_first: (EVERY, {"defects-rejected"}),
    sheets.a_piece_not_primed: (EVERY, {"primed-surfaces"}),
    sheets.laid_too_early: (EVERY, {"primer-touch-dry", "relaxing-time"}),
    sheets.laid_too_late: (EVERY, {"primer-never-after"}),
    # what is not cut cannot be preheated
    sheets.cut_and_laid_at_once: (
        EVERY,
        {"relaxing-time", "defects-rejected", "flame-to-unclosed"},
    ),
    sheets.no_trim: (CORNERS, {"t-joint-cut"}),
    sheets.no_fill: (CORNERS, {"flame-to-unclosed"}),
    sheets.a_small_gusset: (CORNERS, {"gusset-cover"}),
    # who watches rolls for two minutes while the melter burns
    sheets.rolled_after_the_fill: (
        CORNERS,
        {"flame-to-unclosed", "watchers-per-torch", "fire-watch"},
    ),
    flame.the_wrong_hand_on_the_torch: (EVERY, {"extinguisher-training"}),
    flame.the_cylinder_too_near: (EVERY, {"cylinder-to-burner"}),
    flame.the_extinguisher_too_far: (EVERY, {"extinguisher-distance"}),
}
CASES = [(kind, name) for kind, (names, _) in TABLE.items() for name in names]


@pytest.mark.parametrize("name", JOBS)
def test_the_plan_itself_is_clean(name):
    state = replayed(JOBS[name], PLANS[name])
    assert found(state) == [] and missing(JOBS[name], state) == []
    assert state.ended == PLANS[name][-1][0]


@pytest.mark.parametrize(("kind", "name"), CASES, ids=lambda x: getattr(x, "__name__", x))
def test_one_broken_rule_is_found_and_nothing_unrelated(kind, name):
    mutants = list(kind(JOBS[name], PLANS[name]))
    assert mutants, "nothing to break"
    for mutant in mutants:
        state = replayed(JOBS[name], mutant.plan)
        expected = mutant.expected(state)
        assert expected or kind is sheets.a_lap_of_60
        assert expected <= set(found(state)), (mutant.step, found(state))
        assert {subject for subject, _, _ in found(state)} <= TABLE[kind][1], (
            mutant.step,
            found(state),
        )
