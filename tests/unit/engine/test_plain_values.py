"""Plain data: what a scenario may hold, to six places and no larger than sense."""

import math

import pytest

from trainer.engine.plain import exact


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (0.1 + 0.2, 0.3),
        (75.0, 75),
        (76.2, 76.2),
        (-0.0, 0),
        (1 / 3, 0.333333),
        (True, True),
        (None, None),
        ("3 in", "3 in"),
        ((1.0, [2.5]), [1, [2.5]]),
        ({"a": (0.1 + 0.2,)}, {"a": [0.3]}),
        (10**12, 10**12),
    ],
)
def test_exact(value, expected):
    made = exact(value)
    assert made == expected and type(made) is type(expected)


@pytest.mark.parametrize(
    "value",
    [
        math.nan,
        math.inf,
        -math.inf,
        10**12 + 1,
        -1e300,
        10**400,
        "x" * 3000,
        {1, 2},
        {1: 2},
        b"x",
        len,
        object(),
        range(3),
        iter([1]),
        1j,
        [0] * 3000,
        [[0] * 100] * 100,
        [[math.nan]],
    ],
)
def test_what_is_not_plain_is_refused(value):
    with pytest.raises(ValueError):
        exact(value)
