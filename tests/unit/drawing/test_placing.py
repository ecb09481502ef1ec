"""Where labels go: never onto each other, in their order, no farther away than they must."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from trainer.drawing.dimensions import round_length, unit_once
from trainer.drawing.interaction import roomy, shared_out
from trainer.drawing.lettering import text_width, wrapped
from trainer.drawing.markup import Box
from trainer.drawing.placing import Placer, spread

middles = st.lists(st.floats(-500, 500), min_size=1, max_size=12).map(sorted)
boxes = st.builds(
    lambda x, y, w, h: (x, y, x + w, y + h),
    st.floats(0, 300),
    st.floats(-100, 100),
    st.floats(1, 60),
    st.floats(1, 40),
)


def meet(a: Box, b: Box) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


@given(middles, st.floats(4, 40))
def test_spread_keeps_the_order_and_lets_nothing_overlap(wanted: list[float], size: float) -> None:
    starts = spread(wanted, [size] * len(wanted), -600, 600)
    assert all(b - a >= size - 1e-6 for a, b in pairwise(starts))
    assert starts[0] >= -600


@given(middles)
def test_spread_moves_nothing_that_stands_clear(wanted: list[float]) -> None:
    apart = [i * 50.0 for i in range(len(wanted))]
    assert spread(apart, [20.0] * len(apart), -100, 1000) == [middle - 10 for middle in apart]


def test_spread_shares_the_way_among_those_that_crowd() -> None:
    """Two that want one place: each gives way by half (least squares under an order)."""
    assert spread([50, 50], [20, 20], 0, 100) == [30, 50]
    assert spread([0, 0, 0], [10, 10, 10], 0, 100) == [0, 10, 20]


@given(st.lists(boxes, max_size=14), boxes, st.floats(10, 120), st.floats(8, 40))
def test_a_label_finds_a_free_place_however_crowded(
    taken: list[Box], anchor: Box, wide: float, high: float
) -> None:
    placer = Placer(8, 350)
    for box in taken:
        placer.take(box)
    found = placer.near(anchor, wide, high)
    assert found[0] >= 8 - 1e-6 and found[2] <= 350 + 1e-6
    assert not any(meet(found, box) for box in taken)


def test_a_label_keeps_off_lines_while_there_is_room() -> None:
    placer = Placer(0, 300)
    placer.avoid_line((0, 80), (300, 80))
    placer.avoid_line((100, 0), (200, 100))
    found = placer.near((140, 78, 150, 82), 40, 14)
    assert placer.crossings(found) == 0


@given(st.lists(st.floats(0, 340), min_size=1, max_size=12, unique=True).map(sorted))
def test_pressed_stretches_never_overlap(places: list[float]) -> None:
    stretches = shared_out(places)
    for (low, high), middle in zip(stretches, places, strict=True):
        assert low <= middle <= high and high - low <= 44 + 1e-9
    assert all(a[1] <= b[0] + 1e-9 for a, b in pairwise(stretches))


@given(boxes)
def test_a_thing_to_press_grows_round_its_middle(box: Box) -> None:
    grown = roomy(box)
    assert grown[2] - grown[0] >= 43.999 and grown[3] - grown[1] >= 43.999
    assert abs((grown[0] + grown[2]) - (box[0] + box[2])) < 1e-6


@given(st.text("abc ", min_size=1), st.floats(30, 200))
def test_lines_hold_every_word_in_order(text: str, room: float) -> None:
    assert " ".join(wrapped(text, room)).split() == text.split()


def test_wider_letters_take_more_room_and_marks_above_letters_none() -> None:
    assert text_width("mmm") > text_width("iii")
    assert text_width("e\u0301") == text_width("e")
    assert text_width("屋根") == 26  # two full-width signs of 13 units


def test_a_length_is_not_broken_from_its_unit() -> None:
    assert wrapped("wall 300\u00a0mm", 40) == ("wall", "300\u00a0mm")


def test_a_chain_bears_its_unit_once() -> None:
    assert unit_once(["100\u00a0mm", "825\u00a0mm"]) == ["100", "825\u00a0mm"]
    assert unit_once(["4\u00a0in", "1\u00a0ft"]) == ["4\u00a0in", "1\u00a0ft"]
    assert unit_once(["3 1/2", "4"]) == ["3 1/2", "4"]


def test_round_lengths_follow_the_formatter() -> None:
    assert round_length(1400, lambda mm: f"{mm:.0f} mm") == 1000
    assert round_length(1400, lambda mm: f"{mm / 1000:.2f} m") == 1000
    assert round_length(1400, lambda mm: f"{mm / 25.4:.1f} in") == 48 * 25.4
