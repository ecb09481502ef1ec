"""Lengths and temperatures survive being said and typed again, in either system of units."""

from hypothesis import given
from hypothesis import strategies as st

from trainer.engine.measures import MM_PER_INCH, Units, display_rounding, say_clock, say_duration
from trainer.engine.plain import exact
from trainer.engine.typed import read_clock, read_inches

LENGTHS = st.floats(-20_000, 20_000).map(exact)
METRIC, US = Units(), Units("in", "F")
HAIR = 1e-6


@given(LENGTHS)
def test_a_length_is_off_by_the_rounding_of_its_display_at_most(mm):
    for units in (METRIC, US):
        read = units.read_length("value", units.say_length(mm))
        assert abs(read - mm) <= display_rounding("mm", mm) + HAIR


@given(LENGTHS)
def test_what_was_read_is_said_the_same_again(mm):
    for units in (METRIC, US):
        said = units.say_length(mm)
        assert units.say_length(units.read_length("value", said)) == said


@given(st.integers(0, 20_000))
def test_eighths_of_an_inch_are_exact(eighths):
    mm = eighths / 8 * MM_PER_INCH
    assert abs(US.read_length("value", US.say_length(mm)) - mm) < HAIR


@given(st.integers(0, 400), st.integers(0, 15), st.sampled_from([2, 4, 8, 16]))
def test_typed_fractions(whole, over, under):
    inches = whole + over / under
    for typed in (f"{whole} {over}/{under}", f"{whole}-{over}/{under} in", f"{inches:.4f}"):
        assert abs(read_inches("value", typed) - inches) < HAIR
    feet, rest = divmod(whole, 12)
    assert abs(read_inches("value", f"{feet} ft {rest} {over}/{under} in") - inches) < HAIR


@given(st.floats(-60, 100).map(exact))
def test_temperatures(celsius):
    for units in (METRIC, US):
        read = units.read_temperature("value", units.say_temperature(celsius))
        assert abs(read - celsius) <= display_rounding("c", celsius) + HAIR
        read = units.read_difference("value", units.say_difference(celsius))
        assert abs(read - celsius) <= display_rounding("k", celsius) + HAIR


@given(st.integers(0, 1439))
def test_times_of_day(minute):
    assert read_clock("time", say_clock(minute)) == minute


@given(st.integers(0, 5000))
def test_durations_add_up(minutes):
    hours, rest = 0, 0
    for number, unit in zip(*[iter(say_duration(minutes).split())] * 2, strict=True):
        hours, rest = (int(number), rest) if unit == "h" else (hours, int(number))
    assert hours * 60 + rest == minutes and rest < 60


@given(LENGTHS, LENGTHS)
def test_the_longer_is_never_said_to_be_the_shorter(one, other):
    for units in (METRIC, US):
        short, long = sorted((one, other))
        read = [units.read_length("value", units.say_length(mm)) for mm in (short, long)]
        assert read[0] <= read[1] + HAIR
