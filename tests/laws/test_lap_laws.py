"""Laws of laps, stagger, cut length and take-off: more is never worse, units change nothing."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from trainer.roofing.laps import DRIFT, LAP, Taper, judge_reading
from trainer.roofing.setout import Profile, chalk_line_mm, girth_mm
from trainer.roofing.stagger import judge
from trainer.roofing.takeoff import TAKEOFF, Job, fewest_sheets

ORDER = ["reject", "measure again", "accept"]
LENGTH = st.integers(0, 3000).map(lambda tenths: tenths / 10)
POSITIVE = st.integers(1, 30_000).map(lambda tenths: tenths / 10)
DRIFTS = st.integers(-400, 400).map(lambda tenths: tenths / 10)
BANDS = st.lists(
    st.tuples(st.integers(-50, 400), st.integers(0, 60)).map(lambda at: (at[0], sum(at))),
    max_size=5,
)


@given(LENGTH, LENGTH, LENGTH, LENGTH)
def test_a_longer_lap_is_never_worse(measured, more, required, uncertainty):
    short = judge_reading(measured, required, uncertainty)
    long = judge_reading(measured + more, required, uncertainty)
    assert ORDER.index(long) >= ORDER.index(short)


@given(LENGTH, LENGTH, LENGTH, LENGTH)
def test_measuring_worse_never_turns_a_verdict_round(measured, required, uncertainty, more):
    sharp = judge_reading(measured, required, uncertainty)
    blunt = judge_reading(measured, required, uncertainty + more)
    assert blunt in (sharp, "measure again")


@given(st.lists(LENGTH, min_size=1, max_size=5), LENGTH, LENGTH)
def test_the_lap_is_as_good_as_its_worst_reading(readings, required, uncertainty):
    together = LAP(
        {"measured_mm": readings, "required_mm": required, "uncertainty_mm": uncertainty}
    )
    alone = judge_reading(min(readings), required, uncertainty)
    assert together["overall"] == alone
    assert (together["cover_strip"] is not None) == (alone == "reject")


@given(st.integers(1, 20_000), st.integers(0, 20_000), LENGTH, LENGTH)
def test_spacing_and_measuring_agree(sheet_tenths, spacing_tenths, required, uncertainty):
    limits = {"required_mm": required, "uncertainty_mm": uncertainty}
    spacing_tenths = min(spacing_tenths, sheet_tenths)
    spaced = LAP({"sheet_mm": sheet_tenths / 10, "spacing_mm": [spacing_tenths / 10], **limits})
    measured = LAP({"measured_mm": [(sheet_tenths - spacing_tenths) / 10], **limits})
    assert spaced == measured


@given(LENGTH, POSITIVE, DRIFTS, LENGTH)
def test_a_taper_fails_where_it_says_and_not_above(top, down, drift, required):
    taper = Taper(top, down, drift, required)
    fails_at = taper.fails_at_mm
    assert (fails_at is None) == taper.ok
    places = [Fraction(down) * k / 16 for k in range(17)]
    laps = {place: Fraction(str(top)) + Fraction(str(drift)) * place / 1000 for place in places}
    for place, lap in laps.items():
        if fails_at is None or place < fails_at:
            assert lap >= Fraction(str(required)) or place > Fraction(str(down))
        elif drift < 0 and place > fails_at:
            assert lap < Fraction(str(required))


@given(LENGTH, POSITIVE, LENGTH)
def test_the_most_drift_just_holds(top, down, required):
    most = Taper(top, down, 0, required).max_drift_mm_per_m
    assert (most is None) == (top < required)
    if most is not None:
        exact_bottom = Fraction(str(top)) - most * Fraction(str(down)) / 1000
        assert exact_bottom == Fraction(str(required))
        assert Taper(top, down, -float(most) * (1 - 1e-9), required).ok
        assert not Taper(top, down, -float(most) * (1 + 1e-9) - 1e-9, required).ok


@given(LENGTH, LENGTH, POSITIVE, DRIFTS, LENGTH)
def test_a_longer_lap_at_the_top_never_fails_sooner(top, more, down, drift, required):
    inputs = {"down_mm": down, "drift_mm_per_m": drift, "required_mm": required}
    short, long = (DRIFT({"lap_top_mm": lap, **inputs}) for lap in (top, top + more))
    assert long["ok"] or not short["ok"]
    if long["fails_at_mm"] is not None:
        assert short["fails_at_mm"] <= long["fails_at_mm"]


@given(BANDS, BANDS, st.integers(0, 100), st.integers(-200, 200))
def test_stagger_is_the_same_from_either_side_and_anywhere_on_the_wall(field, flashing, clear, by):
    here, turned = judge(field, flashing, clear), judge(flashing, field, clear)
    moved = judge(
        [(a + by, b + by) for a, b in field], [(a + by, b + by) for a, b in flashing], clear
    )
    assert here == moved
    assert here.min_clear_mm == turned.min_clear_mm
    assert {(p.flashing, p.field) for p in here.too_close} == {
        (p.field, p.flashing) for p in turned.too_close
    }


@given(BANDS, BANDS, st.integers(0, 100))
def test_stagger_is_ok_exactly_when_the_smallest_distance_is_enough(field, flashing, clear):
    verdict = judge(field, flashing, clear)
    assert verdict.ok == (verdict.min_clear_mm is None or verdict.min_clear_mm >= clear)


@given(BANDS, BANDS, st.integers(0, 100), st.sampled_from([0.1, 0.5, 25.4, 304.8]))
def test_stagger_keeps_its_verdict_in_another_unit(field, flashing, clear, unit):
    def scaled(bands):
        factor = Fraction(str(unit))
        return [(float(a * factor), float(b * factor)) for a, b in bands]

    here = judge(field, flashing, clear)
    there = judge(scaled(field), scaled(flashing), float(clear * Fraction(str(unit))))
    assert [(p.flashing, p.field) for p in here.too_close] == [
        (p.flashing, p.field) for p in there.too_close
    ]


PROFILES = st.tuples(LENGTH, LENGTH, LENGTH, LENGTH, LENGTH).map(
    lambda legs: Profile(max(legs[:2]), min(legs[:2]), *legs[2:])
)


@given(PROFILES, POSITIVE)
def test_girth_scales_and_stays_between_the_straight_cut_and_all_legs(profile, factor):
    legs = vars(profile)
    scaled = Profile(**{name: leg * factor for name, leg in legs.items()})
    assert abs(girth_mm(scaled) - girth_mm(profile) * factor) <= 1e-9 * (1 + girth_mm(scaled))
    without_cant = sum(legs.values()) - profile.cant_mm
    over = girth_mm(profile) - without_cant
    assert -1e-6 <= over <= profile.cant_mm / 2 + 1e-6
    assert chalk_line_mm(profile) >= profile.field_lap_mm


@st.composite
def jobs(draw):
    sheet = draw(POSITIVE)
    girth = draw(POSITIVE)
    return {
        "walls": draw(st.lists(POSITIVE, max_size=4)),
        "girth_mm": girth,
        "sheet_mm": sheet,
        "side_lap_mm": round(draw(st.sampled_from([0, 0.1, 0.5, 0.9])) * sheet, 2),
        "roll_mm": round(girth * draw(st.integers(1, 12)), 1),  # whole strips, in decimals
        "inside_corners": draw(st.integers(0, 4)),
        "outside_corners": draw(st.integers(0, 4)),
        "sheets_per_corner": draw(st.integers(0, 3)),
        "gussets_per_corner": draw(st.integers(0, 3)),
        "coverage_m2_per_l": draw(POSITIVE),
    }


@given(jobs(), POSITIVE, st.integers(0, 3), st.integers(0, 3))
def test_a_bigger_job_never_needs_less(job, longer, corners, gussets):
    bigger = {
        **job,
        "walls": [*job["walls"], longer],
        "inside_corners": job["inside_corners"] + corners,
        "gussets_per_corner": job["gussets_per_corner"] + gussets,
    }
    small, big = TAKEOFF(job), TAKEOFF(bigger)
    assert all(big[name] >= small[name] for name in ("sheets", "rolls", "gussets", "primer_l"))
    assert big["sheets"] > small["sheets"]


@given(POSITIVE, POSITIVE, POSITIVE, st.sampled_from([0, 0.1, 0.5]))
def test_a_longer_wall_never_takes_fewer_sheets(wall, more, sheet, share):
    lap = sheet * share
    assert fewest_sheets(wall + more, sheet, lap) >= fewest_sheets(wall, sheet, lap)


@given(jobs())
def test_what_is_bought_is_enough_and_less_than_a_roll_too_much(job):
    counted = Job(**job)
    assert counted.rolls * counted.strips_per_roll >= counted.sheets
    assert counted.rolls == 0 or (counted.rolls - 1) * counted.strips_per_roll < counted.sheets
    assert 0 <= counted.offcut_pct < 100


@given(jobs(), st.sampled_from([2, 10, 25]))
def test_the_same_job_in_a_finer_unit(job, parts):
    finer = dict(job)
    for name in ("girth_mm", "sheet_mm", "side_lap_mm", "roll_mm"):
        finer[name] = float(Fraction(str(job[name])) * parts)
    finer["walls"] = [float(Fraction(str(wall)) * parts) for wall in job["walls"]]
    finer["coverage_m2_per_l"] = float(Fraction(str(job["coverage_m2_per_l"])) * parts**2)
    here, there = Job(**job), Job(**finer)
    for name in ("sheets", "strips_per_roll", "rolls", "gussets"):
        assert getattr(here, name) == getattr(there, name)
    assert abs(here.primer_l - there.primer_l) <= Fraction(1, 10**9) * (1 + here.primer_l)
