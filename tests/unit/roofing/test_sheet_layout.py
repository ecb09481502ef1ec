"""Setting out one wall: small cases worked by hand, walls that cannot be done, bad input."""

import pytest

from trainer.errors import InputError
from trainer.roofing.sheets import SHEETS, Layout, Stuck, Wall, set_out

# Sheets of 1 m with laps of 75 mm, a field lap 100 mm wide every metre: common practice, no source.
BARE = {
    "wall_mm": 6400,
    "sheet_mm": 1000,
    "side_lap_mm": 75,
    "min_sheet_mm": 300,
    "field_laps": [],
    "clear_mm": 100,
}


def given(**changes):
    return {**BARE, **changes}


def starts(layout):
    return [start for start, _ in layout.laps]


def test_a_wall_of_full_sheets():
    result = SHEETS(given(wall_mm=2850))
    assert result == {
        "feasible": True,
        "sheet_count": 3,
        "trimmed": 0,
        "min_clear_mm": None,
        "sheets": [
            {"from_mm": 0, "width_mm": 1000},
            {"from_mm": 925, "width_mm": 1000},
            {"from_mm": 1850, "width_mm": 1000},
        ],
        "laps": [[925, 1000], [1850, 1925]],
    }


@pytest.mark.parametrize(("wall", "trimmed"), [(1, 1), (999, 1), (1000, 0)])
def test_a_wall_no_wider_than_a_sheet_takes_one_however_narrow(wall, trimmed):
    result = SHEETS(given(wall_mm=wall, field_laps=[[0, 1000]]))
    assert result["sheets"] == [{"from_mm": 0, "width_mm": wall}]
    assert (result["sheet_count"], result["trimmed"], result["laps"]) == (1, trimmed, [])
    assert result["min_clear_mm"] is None


def test_one_millimetre_more_than_a_sheet_takes_two():
    result = SHEETS(given(wall_mm=1001))
    assert (result["sheet_count"], result["trimmed"]) == (2, 2)
    assert sum(sheet["width_mm"] for sheet in result["sheets"]) == 1001 + 75


def test_of_two_equal_layouts_the_clearer_one():
    # Of 700 and 925, which keep one of two sheets full, 700 lies nearer to the middle between the
    # field laps: 300 from the second, 550 from the first.
    result = SHEETS(given(wall_mm=1700, clear_mm=0, field_laps=[[100, 150], [1075, 1100]]))
    assert (result["sheet_count"], result["trimmed"]) == (2, 1)
    assert result["laps"] == [[700, 775]]
    assert result["min_clear_mm"] == 300


def test_fewer_trimmed_sheets_count_more_than_a_wider_clear_distance():
    # With one sheet trimmed (by 150 mm) the first lap starts at 775 or 925, 25 and 20 mm from the
    # marks; with two trimmed it could lie between, 95 mm from both.
    layout = set_out(Wall(2700, 1000, 75, 300, ((750, 750), (1020, 1020)), 20))
    assert (layout.trimmed, starts(layout), layout.min_clear_mm) == (1, [775, 1700], 25)


def test_fewer_sheets_count_more_than_fewer_trimmed():
    # A single lap may start from 820 to 905: with 800 or 925 one of two sheets would be full, and
    # with three sheets one can be.
    layout = set_out(Wall(1800, 1000, 75, 300, ((790, 800), (1000, 1100)), 20))
    assert (len(layout.sheets), layout.trimmed) == (2, 2)


def test_a_clear_distance_met_exactly_is_met_in_decimals():
    # 0.1 + 0.2 is more than 0.3 in binary fractions.
    wall = given(wall_mm=1925, clear_mm=0.1, field_laps=[[1000.1, 1001], [924.6, 924.9]])
    assert SHEETS(wall)["min_clear_mm"] == 0.1
    assert SHEETS(wall)["laps"] == [[925, 1000]]
    assert SHEETS({**wall, "clear_mm": 0.11})["laps"] != [[925, 1000]]


def test_field_laps_off_the_wall_count_by_their_distance():
    near = SHEETS(given(wall_mm=1925, field_laps=[[-80, -50], [2000, 2100]]))
    assert near["laps"] == [[925, 1000]]
    assert near["min_clear_mm"] == 975


def test_field_laps_that_overlap_and_lie_in_each_other_are_one_obstacle():
    apart = SHEETS(given(field_laps=[[900, 1100], [2000, 2100]]))
    nested = SHEETS(given(field_laps=[[2000, 2100], [950, 1100], [900, 1000], [960, 970]]))
    assert nested == apart


def test_a_field_lap_wider_than_a_sheet_can_bridge():
    result = SHEETS(given(field_laps=[[2500, 4000]]))
    assert result["feasible"] is False
    assert set(result) == {"feasible", "why", "stuck_mm"}
    # The last lap start before it: 2500 − 100 − 75, and 925 × 2 < 2325 ≤ 925 × 3.
    assert result["stuck_mm"] == 2325
    assert "from 2550 to 3250 mm" in result["why"] and "100 mm" in result["why"]


def test_widths_alone_can_make_a_wall_impossible():
    result = set_out(Wall(1500, 1000, 100, 1000, (), 0))
    assert isinstance(result, Stuck)
    assert result.stuck_mm == 900
    assert "from 1000 to 1000 mm wide" in result.why


def test_no_lap_within_reach_of_the_first_sheet():
    result = SHEETS(given(field_laps=[[200, 1000]]))
    assert (result["feasible"], result["stuck_mm"]) == (False, 0)
    assert "from 225 to 925 mm" in result["why"]


def test_a_rest_too_narrow_for_a_sheet():
    # The last lap would have to start from 1000 to 1700, where each comes too near.
    result = SHEETS(given(wall_mm=2000, field_laps=[[1099, 1676]], clear_mm=25))
    assert result["feasible"] is False
    assert result["stuck_mm"] == 999 + 925
    assert "the rest is 76 mm" in result["why"]


def test_whole_number_may_be_written_as_a_fraction():
    assert SHEETS(given(wall_mm=6400.0)) == SHEETS(BARE)


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"wall_mm": 0}, "wall_mm"),
        ({"wall_mm": 6400.5}, "wall_mm"),
        ({"wall_mm": 1_000_001}, "wall_mm"),
        ({"sheet_mm": 1000.5}, "sheet_mm"),
        ({"side_lap_mm": 0}, "side_lap_mm"),
        ({"side_lap_mm": 74.5}, "side_lap_mm"),
        ({"side_lap_mm": 1000}, "side_lap_mm"),
        ({"side_lap_mm": 160}, "min_sheet_mm"),
        ({"min_sheet_mm": 149}, "min_sheet_mm"),
        ({"min_sheet_mm": 1001}, "min_sheet_mm"),
        ({"min_sheet_mm": True}, "min_sheet_mm"),
        ({"clear_mm": -1}, "clear_mm"),
        ({"clear_mm": "100"}, "clear_mm"),
        ({"clear_mm": None}, "clear_mm"),
        ({"field_laps": [[1050, 950]]}, "field_laps[0]"),
        ({"field_laps": [[950, 1050], [950]]}, "field_laps[1]"),
        ({"field_laps": [[950, float("nan")]]}, "field_laps[0][1]"),
        ({"field_laps": None}, "field_laps"),
        ({"roof": 1}, "roof"),
    ],
)
def test_bad_input_names_the_field(changes, field):
    with pytest.raises(InputError) as refusal:
        SHEETS(given(**changes))
    assert refusal.value.field == field


def test_longest_wall_of_narrow_sheets():
    layout = set_out(
        Wall(1_000_000, 100, 10, 20, tuple((x, x + 10) for x in range(0, 10**6, 97)), 5)
    )
    assert isinstance(layout, Layout)
    assert layout.sheets[-1].from_mm + layout.sheets[-1].width_mm == 1_000_000
