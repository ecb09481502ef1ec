"""Laws of primer, fire watch and the clock that hold for every input."""

from datetime import timedelta
from fractions import Fraction

from hypothesis import assume, given
from hypothesis import strategies as st

from trainer.errors import InputError
from trainer.roofing.clock import Moment, must_not_pass, must_wait_for, read_moment
from trainer.roofing.firewatch import FIRE_WATCH, WatchRule, last_flame_by, watch_end
from trainer.roofing.primer import PRIMER, REMEDIES, TOUCHES, Coat, Event, judge

DAY = "2026-05-04T"
MIDNIGHT = "2026-05-05T00:00"
minutes_of_day = st.integers(0, 1439)
durations = st.integers(0, 600) | st.decimals(0, 600, places=2).map(float)
moments = minutes_of_day.map(lambda minutes: Moment(Fraction(minutes)))
kinds = st.sampled_from(sorted(REMEDIES))


@st.composite
def coats(draw):
    dry, plan, latest = sorted(draw(st.tuples(durations, durations, durations)))
    return Coat(draw(moments), dry, plan, latest, draw(st.sampled_from(["dry", "tacky"])))


touches = st.sampled_from(TOUCHES)
events = st.lists(
    st.builds(Event, st.integers(0, 3000).map(Fraction).map(Moment), kinds), max_size=4
)


@given(coats(), events, st.integers(0, 2000), st.integers(0, 2000), touches, touches)
def test_waiting_never_brings_primer_back(coat, happened, wait, longer, touch, later_touch):
    now = coat.applied_at.after(wait)
    before = judge(coat, now, touch, happened)
    after = judge(coat, now.after(longer), later_touch, happened)
    if before.state in ("spoiled", "expired"):
        assert after.state in ("spoiled", "expired")
    if before.state == "spoiled":
        assert after.state == "spoiled"
    assert after.minutes_left == before.minutes_left - longer


@given(coats(), st.integers(0, 2000), touches)
def test_primer_is_usable_exactly_between_its_limits(coat, wait, touch):
    state = judge(coat, coat.applied_at.after(wait), touch).state
    dry_enough = TOUCHES.index(touch) >= TOUCHES.index(coat.touch_required)
    usable = coat.dry_min <= wait <= coat.latest_min and dry_enough
    assert (state in ("ready", "late")) == usable


def call(coat, now, touch, happened, prefix=""):
    def text(moment):
        return prefix + must_wait_for(moment)

    return PRIMER(
        {
            "applied_at": text(coat.applied_at),
            "now": text(now),
            "dry_min": coat.dry_min,
            "plan_min": coat.plan_min,
            "latest_min": coat.latest_min,
            "touch": touch,
            "touch_required": coat.touch_required,
            "events": [{"at": text(event.at), "kind": event.kind} for event in happened],
        }
    )


def dated(value):
    """A time of day as the same time on the day, midnight as the start of the next."""
    if isinstance(value, str) and value[2:3] == ":":
        return MIDNIGHT if value == "24:00" else DAY + value
    return value


@given(
    coats(),
    st.integers(0, 600),
    touches,
    st.lists(st.tuples(st.integers(0, 600), kinds), max_size=3),
)
def test_primer_answers_the_same_with_and_without_dates(coat, wait, touch, after):
    happened = [Event(coat.applied_at.after(late), kind) for late, kind in after]
    now = coat.applied_at.after(wait)
    assume(all(moment.minutes < 1440 for moment in [now, *(event.at for event in happened)]))
    with_dates = call(coat, now, touch, happened, DAY)
    on_the_day = with_dates["close_at"] <= MIDNIGHT and with_dates["ready_at"] <= MIDNIGHT
    try:
        without = call(coat, now, touch, happened)
    except InputError:
        assert not on_the_day
    else:
        assert on_the_day
        assert {name: dated(value) for name, value in without.items()} == with_dates


rules = st.lists(
    st.builds(
        WatchRule, st.sampled_from("abcd"), st.none() | durations, st.none() | st.integers(0, 300)
    ),
    min_size=1,
    max_size=4,
)


def as_given(watch_rules):
    return [
        {
            name: value
            for name, value in vars(rule).items()
            if name != "monitor_min" or value is not None
        }
        for rule in watch_rules
    ]


@given(rules, minutes_of_day, minutes_of_day)
def test_later_flame_never_ends_the_watch_earlier(watch_rules, flame, other):
    first, last = sorted((flame, other))
    ends = [
        FIRE_WATCH({"last_flame": DAY + hours(at), "rules": as_given(watch_rules)})
        for at in (first, last)
    ]
    for name in ("watch_end", "monitor_end"):
        assert (ends[0][name] is None) == (ends[1][name] is None)
        assert ends[0][name] is None or ends[0][name] <= ends[1][name]
    assert ends[0]["governing_watch"] == ends[1]["governing_watch"]


@given(rules, minutes_of_day)
def test_last_flame_of_a_leaving_time_is_the_latest_that_allows_it(watch_rules, minute):
    leave = Moment(Fraction(minute))
    by = last_flame_by(leave, watch_rules)
    assume(by is not None)
    assert watch_end(by, watch_rules) == leave
    answer = FIRE_WATCH({"leave_by": DAY + hours(minute), "rules": as_given(watch_rules)})
    flame = read_moment(answer["last_flame_by"])
    leave_dated = read_moment(DAY + hours(minute))
    assert watch_end(flame, watch_rules) <= leave_dated
    assert watch_end(flame.after(1), watch_rules) > leave_dated


@given(rules, minutes_of_day, st.sampled_from(["last_flame", "leave_by"]))
def test_fire_watch_answers_the_same_with_and_without_dates(watch_rules, minute, question):
    with_dates = FIRE_WATCH({question: DAY + hours(minute), "rules": as_given(watch_rules)})
    times = {name: with_dates.get(name) for name in ("watch_end", "monitor_end", "last_flame_by")}
    on_the_day = all(t is None or DAY + "00:00" <= t <= MIDNIGHT for t in times.values())
    try:
        without = FIRE_WATCH({question: hours(minute), "rules": as_given(watch_rules)})
    except InputError:
        assert not on_the_day
    else:
        assert on_the_day
        assert {name: dated(value) for name, value in without.items()} == with_dates


@given(rules, minutes_of_day, st.none() | durations)
def test_one_rule_more_never_shortens_the_watch(watch_rules, minute, watch_min):
    flame = Moment(Fraction(minute))
    fewer, more = (
        watch_end(flame, some)
        for some in (watch_rules, [*watch_rules, WatchRule("more", watch_min)])
    )
    assert fewer is None or more >= fewer


def hours(minute):
    return f"{minute // 60:02}:{minute % 60:02}"


@given(minutes_of_day, st.dates())
def test_written_times_read_back_as_themselves(minute, date):
    for text in (hours(minute), f"{date.isoformat()}T{hours(minute)}"):
        moment = read_moment(text)
        assert must_wait_for(moment) == must_not_pass(moment) == text


@given(st.datetimes(), st.integers(-(10**6), 10**6))
def test_dates_run_as_the_calendar_of_the_standard_library(start, minutes):
    start = start.replace(second=0, microsecond=0)
    try:
        expected = start + timedelta(minutes=minutes)
    except OverflowError:
        assume(False)
    moment = read_moment(start.isoformat(timespec="minutes")).after(minutes)
    assert must_wait_for(moment) == expected.isoformat(timespec="minutes")


@given(moments, durations)
def test_rounding_moves_by_less_than_a_minute_to_the_safe_side(moment, minutes):
    later = moment.after(minutes)
    assume(later.minutes <= 1439)
    up, down = read_moment_or_midnight(must_wait_for(later)), read_moment(must_not_pass(later))
    assert down <= later <= up
    assert up.since(down) in (0, 1)


def read_moment_or_midnight(text):
    return Moment(Fraction(1440)) if text == "24:00" else read_moment(text)
