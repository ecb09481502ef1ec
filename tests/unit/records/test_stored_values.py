"""Moments and JSON on their way into the database and out again."""

from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy.dialects import sqlite

from trainer.records.tables.base import CanonicalJson, UtcDateTime, canonical, new_public_id

SQLITE = sqlite.dialect()
numbers = st.integers() | st.floats(allow_nan=False, allow_infinity=False)
json_values = st.recursive(
    st.none() | st.booleans() | numbers | st.text(),
    lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner),
    max_leaves=12,
)


def test_a_moment_comes_back_in_utc():
    toronto = timezone(timedelta(hours=-4))
    kept = UtcDateTime().process_bind_param(datetime(2026, 5, 4, 8, tzinfo=toronto), SQLITE)
    assert kept == datetime(2026, 5, 4, 12)
    back = UtcDateTime().process_result_value(kept, SQLITE)
    assert back == datetime(2026, 5, 4, 12, tzinfo=UTC)


def test_a_moment_without_its_zone_is_refused():
    with pytest.raises(ValueError, match="time zone"):
        UtcDateTime().process_bind_param(datetime(2026, 5, 4, 8), SQLITE)


@given(json_values)
def test_json_comes_back_as_it_went_in(value):
    kept = CanonicalJson().process_bind_param(value, SQLITE)
    assert CanonicalJson().process_result_value(kept, SQLITE) == value


def test_equal_values_are_equal_bytes():
    assert canonical({"b": 1, "a": [2.5, "é"]}) == canonical({"a": [2.5, "é"], "b": 1})
    assert canonical({"a": 1, "b": "é"}) == '{"a":1,"b":"é"}'


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_what_json_does_not_know_is_refused(value):
    with pytest.raises(ValueError, match="JSON compliant"):
        canonical({"x": value})


def test_public_ids_are_long_and_never_the_same():
    ids = {new_public_id() for _ in range(10_000)}
    assert len(ids) == 10_000
    assert {len(one) for one in ids} == {12}
