"""Laws of piles, bridges and beads: more sheets never fewer plies, a larger gap never better."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from trainer.roofing.bleedout import Bead
from trainer.roofing.bridging import Bridge
from trainer.roofing.plies import Laid

SPOT = st.tuples(st.integers(0, 20), st.integers(0, 20))
SHEET = st.tuples(SPOT, SPOT).filter(lambda s: s[0][0] != s[1][0] and s[0][1] != s[1][1])
SHEETS = st.lists(SHEET, min_size=1, max_size=8)
SPOTS = st.lists(SPOT, max_size=6)
LENGTH = st.integers(0, 3000).map(lambda tenths: tenths / 10)
ANGLE = st.integers(1, 1799).map(lambda tenths: tenths / 10)


@given(SHEETS, SPOTS, st.randoms())
def test_the_order_of_laying_changes_no_count(sheets, points, chance):
    shuffled = chance.sample(sheets, len(sheets))
    assert Laid(sheets, points).plies() == Laid(shuffled, points).plies()
    assert Laid(sheets).thickest() == Laid(shuffled).thickest()


@given(SHEETS, SHEET, SPOTS)
def test_one_sheet_more_adds_one_ply_at_the_most(sheets, another, points):
    before, after = Laid(sheets, points), Laid([*sheets, another], points)
    pairs = zip(before.plies(), after.plies(), strict=True)
    assert all(one <= more <= one + 1 for one, more in pairs)
    assert before.thickest().plies <= after.thickest().plies <= before.thickest().plies + 1


@given(SHEETS)
def test_the_pile_is_as_high_as_it_says_and_nowhere_higher_inside(sheets):
    thickest = Laid(sheets).thickest()
    assert Laid(sheets, [tuple(map(float, thickest.at))]).plies() == [thickest.plies]
    insides = [(x + 0.5, y + 0.5) for x in range(20) for y in range(20)]
    assert max(Laid(sheets, insides).plies()) == thickest.plies


@given(SHEETS, SPOTS, st.integers(-500, 500), st.integers(-500, 500))
def test_a_pile_is_the_same_anywhere_on_the_roof(sheets, points, right, up):
    def moved(spots):
        return [(x + right, y + up) for x, y in spots]

    here, there = Laid(sheets, points), Laid([tuple(moved(s)) for s in sheets], moved(points))
    assert here.plies() == there.plies()
    at, moved_at = here.thickest().at, there.thickest().at
    assert moved_at == (at[0] + right, at[1] + up)


@given(LENGTH, LENGTH, ANGLE, LENGTH, LENGTH)
def test_a_larger_gap_never_leaves_a_better_lap(gap, more, angle, lap, required):
    near, far = (Bridge(g, angle, lap, required) for g in (gap, gap + more))
    assert far.lap_left_mm <= near.lap_left_mm <= Fraction(str(lap))
    assert near.ok or not far.ok


@given(LENGTH, ANGLE, LENGTH, LENGTH)
def test_a_bridge_holds_up_to_its_largest_gap_and_no_further(gap, angle, lap, required):
    bridge = Bridge(gap, angle, lap, required)
    assert (bridge.most_gap_mm is None) == (lap < required)
    assert bridge.ok == (
        bridge.most_gap_mm is not None and bridge.most_gap_mm >= Fraction(str(gap))
    )


@given(LENGTH, ANGLE, st.integers(1, 50))
def test_a_sharper_angle_loses_more_and_never_all(gap, angle, sharper):
    wide, sharp = (Bridge(gap, a, 0, 0).lost_mm for a in (angle, angle / (1 + sharper)))
    assert 0 <= wide <= sharp <= 2 * Fraction(str(gap))


WARMTH = {"cold": 0, "right": 1, "too hot": 2}


@given(LENGTH, LENGTH, LENGTH, LENGTH, LENGTH)
def test_a_wider_bead_never_comes_from_less_heat(reading, more, least, room, uncertainty):
    bead = Bead(least, least + room, uncertainty)
    verdicts = [bead.judge(each) for each in (reading, reading + more)]
    known = [WARMTH[verdict] for verdict in verdicts if verdict in WARMTH]
    assert known == sorted(known)


@given(LENGTH, LENGTH, LENGTH, LENGTH, LENGTH)
def test_measuring_worse_never_turns_a_verdict_round(reading, least, room, uncertainty, more):
    sharp = Bead(least, least + room, uncertainty).judge(reading)
    blunt = Bead(least, least + room, uncertainty + more).judge(reading)
    assert blunt in (sharp, "measure again")


@given(LENGTH, LENGTH, LENGTH)
def test_an_exact_ruler_always_tells(reading, least, room):
    assert Bead(least, least + room, 0).judge(reading) != "measure again"
