"""Laws of sealing before the night, of cold rolls and of cooling: what holds for every input."""

from datetime import datetime, timedelta
from fractions import Fraction

from hypothesis import assume, given
from hypothesis import strategies as st

from trainer.errors import InputError
from trainer.roofing.burns import BURN_COOLING
from trainer.roofing.clock import Moment, read_moment
from trainer.roofing.coldroll import COLD_ROLL, Roll
from trainer.roofing.nightseal import NIGHT_SEAL, Seal, sheets_in

DAY = "2026-10-20T"
minutes_of_day = st.integers(0, 1439)
amounts = st.integers(0, 60) | st.decimals(0, 60, places=2).map(float)
seals = st.builds(Seal, amounts, amounts, st.integers(1, 9), amounts)
temperatures = st.integers(-30, 40) | st.decimals(-30, 40, places=1).map(float)


def hours(minute):
    return f"{minute // 60:02}:{minute % 60:02}"


def asked(seal, **more):
    return NIGHT_SEAL({"tight_by": DAY + "16:30", **vars(seal), **more})


# ---- night-seal ----------------------------------------------------------------------------------


@given(seals, minutes_of_day)
def test_begun_at_the_last_moment_the_roof_is_tight_exactly_then(seal, minute):
    tight = Moment(Fraction(minute))
    assert seal.start_by(tight).after(seal.minutes) == tight


@given(seals)
def test_the_written_start_is_the_last_whole_minute_that_is_in_time(seal):
    tight = read_moment(DAY + "16:30")
    start = read_moment(asked(seal)["start_by"])
    assert start.after(seal.minutes) <= tight
    assert start.after(1).after(seal.minutes) > tight


@given(seals, st.sampled_from(["open_m", "seal_min_per_m", "fetch_min"]), amounts)
def test_more_to_do_never_lets_anybody_begin_later(seal, name, more):
    worse = Seal(**{**vars(seal), name: getattr(seal, name) + more})
    assert asked(worse)["start_by"] <= asked(seal)["start_by"]


@given(seals, st.integers(1, 9))
def test_more_hands_share_the_sealing_and_not_the_fetching(seal, more):
    helped = Seal(**{**vars(seal), "people": seal.people + more})
    fetch = Fraction(repr(seal.fetch_min))
    work, shared = seal.minutes - fetch, helped.minutes - fetch
    assert 0 <= shared * helped.people == work * seal.people


@given(seals, minutes_of_day, st.integers(1, 90))
def test_the_sheets_that_fit_fit_and_one_more_does_not(seal, minute, per_sheet):
    answer = asked(seal, now=DAY + hours(minute), minutes_per_sheet=per_sheet)
    left = seal.start_by(read_moment(DAY + "16:30")).since(read_moment(DAY + hours(minute)))
    sheets = answer["sheets_before"]
    assert 0 <= sheets * per_sheet <= max(left, 0)
    assert (sheets + 1) * per_sheet > left


@given(st.fractions(-500, 500), st.integers(0, 200), st.integers(1, 90))
def test_waiting_for_a_sheet_costs_a_sheet(left, sheets, per_sheet):
    assume(left >= sheets * per_sheet)
    assert sheets_in(left - sheets * per_sheet, per_sheet) == sheets_in(left, per_sheet) - sheets


@given(seals, minutes_of_day)
def test_night_seal_answers_the_same_with_and_without_dates(seal, minute):
    given_times = {**vars(seal), "tight_by": hours(minute)}
    dated = NIGHT_SEAL({**given_times, "tight_by": DAY + hours(minute)})
    try:
        plain = NIGHT_SEAL(given_times)
    except InputError:
        assert dated["start_by"] < DAY
    else:
        assert DAY + plain["start_by"] == dated["start_by"]


# ---- cold-roll -----------------------------------------------------------------------------------

rolls = st.builds(
    Roll, temperatures, temperatures, amounts,
    st.none() | minutes_of_day.map(lambda minute: read_moment(DAY + hours(minute))),
)  # fmt: skip


@given(rolls, temperatures, temperatures, st.integers(0, 5000))
def test_ready_exactly_when_there_is_no_ground_and_grounds_are_two_and_apart(
    roll, surface_c, least_c, wait
):
    since = roll.inside_since or read_moment(DAY + "07:00")
    now = since.after(wait)
    answer = COLD_ROLL(
        {
            **vars(roll),
            "inside_since": roll.inside_since and written(roll.inside_since),
            "now": written(now),
            "surface_c": surface_c,
            "surface_least_c": least_c,
        }
    )
    warmed = roll.inside_since is not None and wait >= Fraction(repr(roll.storage_h)) * 60
    cold = roll.stored_c < roll.cold_from_c and not warmed
    assert ("roll cold" in answer["grounds"]) == cold
    assert ("wall cold" in answer["grounds"]) == (surface_c < least_c)
    assert answer["ready"] == (answer["grounds"] == [])
    assert (answer["ready_at"] is None) == (
        roll.stored_c < roll.cold_from_c and roll.inside_since is None
    )


@given(rolls, st.integers(0, 5000), st.integers(0, 5000))
def test_a_roll_that_is_ready_stays_ready(roll, wait, longer):
    now = (roll.inside_since or read_moment(DAY + "07:00")).after(wait)
    before, after = roll.ready_at(now), roll.ready_at(now.after(longer))
    assert (before is None) == (after is None)
    if before is not None and before <= now:
        assert after <= now.after(longer)


def written(moment):
    """A whole minute of October or so, by the standard library's calendar."""
    gone = moment.since(read_moment(DAY + "00:00"))
    start = datetime.fromisoformat(DAY + "00:00")
    return (start + timedelta(minutes=int(gone))).isoformat(timespec="minutes")


# ---- burn-cooling --------------------------------------------------------------------------------


@given(minutes_of_day, st.integers(0, 300), st.integers(1, 90))
def test_cooling_is_enough_from_its_end_on_and_not_before(since, wait, cool_min):
    start = read_moment(DAY + hours(since))
    answer = BURN_COOLING(
        {"cooling_since": DAY + hours(since), "now": written(start.after(wait)),
         "cool_min": cool_min}
    )  # fmt: skip
    assert answer["enough"] == (wait >= cool_min)
    assert answer["minutes_left"] == cool_min - wait
    assert read_moment(answer["cool_until"]).since(start) == cool_min
