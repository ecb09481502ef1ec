"""Laws of setting out: the best of every possible layout, and what more room or less must do."""

from dataclasses import replace

from hypothesis import example, given
from hypothesis import strategies as st
from laws.sheet_walls import (
    assert_sound,
    every_rank,
    exactly,
    furthest_lap,
    rank,
    small_walls,
)

from trainer.roofing.sheets import Layout, Stuck, Wall, set_out


@given(small_walls())
@example(Wall(30, 10, 1, 10, (), 0))
@example(Wall(28, 10, 1, 10, ((5, 5),), 0))
@example(Wall(12, 5, 1, 2, ((5, 5), (7, 7)), 0))  # bands without width between whole millimetres
@example(Wall(60, 9, 2, 4, ((-300.5, -300.5), (900.25, 901)), 0.1))
def test_best_of_every_layout_of_a_small_wall(wall):
    result, ranks = set_out(wall), every_rank(wall)
    if isinstance(result, Stuck):
        assert not ranks
        assert result.stuck_mm == furthest_lap(wall)
    else:
        assert_sound(wall, result)
        assert rank(result) == min(ranks)


def cost(wall):
    """Sheets needed; more than any wall has when it cannot be set out."""
    result = set_out(wall)
    return len(result.sheets) if isinstance(result, Layout) else 10**6


@given(small_walls(), st.integers(1, 8))
def test_a_wider_clear_distance_never_saves_a_sheet(wall, more):
    assert cost(replace(wall, clear_mm=wall.clear_mm + more)) >= cost(wall)


@given(small_walls(), st.integers(-10, 70), st.integers(0, 20))
def test_one_more_field_lap_never_helps(wall, start, width):
    crowded = replace(wall, field_laps=(*wall.field_laps, (start, start + width)))
    with_it, without = set_out(crowded), set_out(wall)
    if isinstance(with_it, Stuck):
        return
    assert isinstance(without, Layout)
    assert rank(without)[:2] <= rank(with_it)[:2]
    if rank(without)[:2] == rank(with_it)[:2] and without.min_clear_mm is not None:
        assert with_it.min_clear_mm <= without.min_clear_mm


@given(small_walls())
def test_asking_for_the_clear_distance_found_changes_nothing(wall):
    found = set_out(wall)
    if isinstance(found, Layout) and found.min_clear_mm is not None:
        asked = replace(wall, clear_mm=float(found.min_clear_mm))  # tenths: written as they are
        assert rank(set_out(asked)) == rank(found)


@given(small_walls(), st.integers(2, 5))
def test_order_and_repetition_of_field_laps_change_nothing(wall, times):
    shuffled = replace(wall, field_laps=wall.field_laps[::-1] * times)
    before, after = set_out(wall), set_out(shuffled)
    assert type(before) is type(after)
    assert before == after


@given(small_walls())
def test_a_wall_read_from_its_other_end_is_as_good(wall):
    turned = tuple(
        (float(wall.wall_mm - exactly(b)), float(wall.wall_mm - exactly(a)))
        for a, b in wall.field_laps
    )
    here, there = set_out(wall), set_out(replace(wall, field_laps=turned))
    assert type(here) is type(there)
    if isinstance(here, Layout):
        assert rank(here) == rank(there)


@given(small_walls(fractions=False), st.integers(2, 10))
def test_a_finer_unit_is_never_worse(wall, parts):
    """The same wall in tenths of a millimetre has every layout it had, and more."""
    fine = Wall(
        wall.wall_mm * parts,
        wall.sheet_mm * parts,
        wall.side_lap_mm * parts,
        wall.min_sheet_mm * parts,
        tuple((a * parts, b * parts) for a, b in wall.field_laps),
        wall.clear_mm * parts,
    )
    coarse_result, fine_result = set_out(wall), set_out(fine)
    if isinstance(coarse_result, Layout):
        assert isinstance(fine_result, Layout)
        n, trimmed, clear = rank(coarse_result)
        assert rank(fine_result) <= (n, trimmed, None if clear is None else clear * parts)
