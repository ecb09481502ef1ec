"""What actions change, and what they make known."""

import pytest

from tests.unit.installation.small_jobs import (
    CLEAN,
    LEAVE,
    alone,
    corner_job,
    do,
    played,
    small_job,
    wait,
)
from tests.unit.installation.work_so_far import CORNER, CUT, LAY, LIGHT, MARK, MELTER, SITE
from trainer.installation.laps import laps, missing, unclosed
from trainer.installation.place import Spot

LOW = small_job(wall={"rail": False})


def test_what_is_seen_only_by_looking_is_known_with_its_minute():
    job = small_job(
        wall={"behind": [{"id": "nail", "from_mm": 0, "to_mm": 900, "what": "timber nailer"}]},
        **SITE,
    )
    state = alone(job, do("look", wall="A"))
    assert state.known["behind A"] == {"at": 454, "is": [["nail", 0, 900, "timber nailer"]]}
    assert state.known["openings A"] == {"at": 454, "is": ["vent"]}
    assert alone(job, do("ask", wall="A")).known["told A"]["is"] == "masonry"


def test_a_probe_finds_damp_that_is_still_there():
    damp = [{"from_mm": 200, "to_mm": 700, "dry_at": "08:00"}]
    job = small_job(wall={"damp": damp})
    assert alone(job, do("probe", wall="A")).known["damp A"]["is"] == [[200, 700]]
    assert alone(job, wait(26), do("probe", wall="A")).known["damp A"]["is"] == []
    dried = alone(job, do("dry", wall="A", stretch=(200, 700)), do("probe", wall="A"))
    assert dried.known["damp A"]["is"] == []
    halfway = alone(job, do("dry", wall="A", stretch=(200, 600)), do("probe", wall="A"))
    assert halfway.known["damp A"]["is"] == [[200, 700]]


def test_a_probe_finds_laps_that_did_not_bond():
    job = small_job()
    rolls = [do("roll", wall="A", sheet=k) for k in (0, 1)]
    state = alone(job, *LAY, *rolls, do("probe", wall="A"))
    assert state.known["not bonded A"]["is"] == ["A:1"]


def test_measuring_tells_air_laps_and_field_laps():
    state = alone(small_job(), *LAY, do("measure", wall="A"))
    air = state.known["air A"]["is"]
    # 20 °C and 50 %: dew point 9.3 °C (Magnus, WMO-No. 8); face in the shade 19 °C
    assert (air["surface_c"], air["air_c"], air["rh_pct"]) == (19, 20, 50)
    assert air["spread_k"] == pytest.approx(19 - 9.27, abs=0.05)
    assert state.known["laps A"]["is"] == {"A:1": 100}
    assert state.known["field laps A"]["is"] == {"A:0": 110, "A:1": 110}  # 160 − the cant of 50


def test_the_sun_on_a_face_warms_it():
    job = small_job(wall={"sun": [["07:33", "12:00"]]}, weather={"sun_gain_c": 8})
    assert alone(job, do("measure", wall="A")).known["air A"]["is"]["surface_c"] == 28


@pytest.mark.parametrize(
    ("minutes", "finger"),
    # primed at 7:30, dry 30 min later; the touch takes 1 min; wet for the first half
    [(13, "wet"), (14, "tacky"), (28, "tacky"), (29, "dry")],
)
def test_a_finger_on_primer(minutes, finger):
    job = small_job()
    start = played(job, do("prime", wall="A", stretch=(0, 2800)))
    state = alone(job, wait(minutes), do("touch", wall="A", at=0), state=start)
    assert state.known["touch A 0"]["is"] == finger
    assert state.known["coat 1"]["is"] == finger


def test_a_finger_where_no_primer_is():
    damp = [{"from_mm": 0, "to_mm": 200, "dry_at": "15:00"}]
    job = small_job(wall={"damp": damp})
    state = alone(job, do("touch", wall="A", at=100), do("touch", wall="A", at=200))
    assert state.known["touch A 100"]["is"] == "damp"
    assert state.known["touch A 200"]["is"] == "bare"


def test_priming_opens_a_can_that_closing_closes():
    job = small_job()
    state = alone(job, do("prime", wall="A", stretch=(300, 1300)))
    coat = state.coats[0]
    assert (coat.from_mm, coat.to_mm, coat.dry_min, coat.by) == (300, 1300, 30, 1)
    # thousandths of a minute: begun at 450 min, 2 a metre
    assert [coat.primed_ms(at) for at in (300, 800, 1300)] == [450_000, 451_000, 452_000]
    assert (state.cans, state.cans_at, state.primed_mm) == (1, Spot("A", 1300, 500), 1000)
    assert alone(job, do("close cans"), state=state).cans is None


def test_a_cold_face_dries_more_slowly():
    hour = [{"at": "06:00", "air_c": 15, "rh_pct": 50}]  # face in the shade 14 °C: 150 %
    state = alone(small_job(weather={"path": hour}), do("prime", wall="A", stretch=(0, 1000)))
    assert state.coats[0].dry_min == 45


def test_strips_are_taken_from_the_roll_and_used():
    job = small_job()
    state = alone(job, *MARK, CUT)
    assert (len(state.strips), state.strips_cut, state.cut_from) == (3, 3, {"r1": 3})
    state = alone(job, do("lay", wall="A", sheet=1), state=state)
    sheet = state.sheets["A:1"]
    assert (sheet.from_mm, sheet.to_mm, sheet.field_lap_mm) == (900, 1900, 110)
    assert (len(state.strips), state.film) == (2, sheet.by)
    assert (sheet.begun, sheet.laid_at, sheet.rolled_at) == (464, 472, None)


def test_a_melted_strip_is_taken_first():
    job = small_job()
    melt = [do("watch", "ivo"), LIGHT, do("preheat", strips=1), do("put out")]
    state = alone(job, *MARK, CUT, *melt, do("lay", wall="A", sheet=0))
    assert state.sheets["A:0"].melted
    assert [strip.melted for strip in state.strips] == [False, False]


def test_without_a_line_the_lap_comes_out_by_eye():
    state = alone(small_job(), MARK[1], CUT, do("lay", wall="A", sheet=0))
    assert state.sheets["A:0"].field_lap_mm == 60


def test_a_gust_wrinkles_a_sheet_that_one_person_lays():
    job = small_job(weather={"gusts": [["07:45", "08:30"]]})
    one = alone(job, *MARK, CUT, do("lay", wall="A", sheet=0))
    two = alone(job, *MARK, CUT, do("lay", wall="A", sheet=0, helped_by="ivo"))
    assert (one.sheets["A:0"].wrinkled, two.sheets["A:0"].wrinkled) == (True, False)
    assert [entry["sheet"] for entry in one.log if entry["kind"] == "gust"] == ["A:0"]
    seen = alone(job, do("look", wall="A"), state=one)
    assert seen.known["wrinkled A"]["is"] == ["A:0"]


def test_stripping_takes_primer_and_welds_with_it():
    job = small_job()
    prime = do("prime", wall="A", stretch=(0, 2800))
    welded = [LIGHT, do("weld", wall="A", lap=1), do("put out")]
    state = alone(job, prime, *LAY, do("watch", "ivo"), *welded)
    assert list(state.welds) == ["A:1"]
    state = alone(job, do("strip", wall="A", sheet=0), state=state)
    assert (list(state.sheets), state.welds, state.redone_mm) == (["A:1"], {}, 1000)
    assert [(coat.from_mm, coat.to_mm) for coat in state.coats] == [(1000, 2800)]
    assert state.coats[0].primed_ms(1000) == 452_000


def test_a_corner_from_the_first_sheet_to_the_gusset():
    job = corner_job()
    state = alone(job, *CORNER)
    assert state.sheets["corner-0:1"].on("A") == (1800, 2300)
    assert state.sheets["corner-0:2"].on("B") == (0, 500)
    assert state.corners[0].trimmed_before
    # the roller on the second sheet presses the first as well
    assert state.sheets["corner-0:1"].rolled_at == state.sheets["corner-0:2"].rolled_at
    assert [part.id for part in unclosed(job, state)] == ["corner-0"]
    state = alone(job, do("watch", "ivo"), MELTER, wait(20), do("fill", corner=0), state=state)
    assert unclosed(job, state) == []
    light = do("light", wall="A", at=2000, off=1200)
    state = alone(job, light, do("gusset", corner=0, reach=150), state=state)
    corner = state.corners[0]
    assert (corner.gusset, corner.reach_mm) == (state.now, 150)
    assert state.flames["torch"].spot == Spot("B", 0)


def test_rolling_after_filling_drags_the_bitumen_out():
    job = corner_job()
    fill = [do("watch", "ivo"), MELTER, wait(20), do("fill", corner=0)]
    state = alone(job, *CORNER, *fill, do("roll corner", corner=0, number=2))
    assert state.corners[0].filled is None
    assert "bitumen dragged out" in [entry["kind"] for entry in state.log]


def test_stripping_a_corner_sheet_undoes_the_corner():
    job = corner_job()
    fill = [do("watch", "ivo"), MELTER, wait(20), do("fill", corner=0)]
    state = alone(job, *CORNER, *fill, do("strip corner", corner=0, number=2))
    assert (state.corners[0].filled, state.corners[0].trimmed) == (None, None)
    assert state.redone_mm == 1000  # 500 mm on each wall


def test_the_torch_goes_where_it_welds_and_gas_burns_by_the_minute():
    job = small_job()
    state = alone(job, *LAY, do("watch", "ivo"), LIGHT)
    assert state.gas_left == 60
    state = alone(job, do("weld", wall="A", lap=1), state=state)
    assert (state.flames["torch"].spot, state.gas_left) == (Spot("A", 950), 57)
    lit_at = state.flames["torch"].lit_at
    state = alone(job, LIGHT, state=state)
    assert (state.flames["torch"].spot, state.flames["torch"].lit_at) == (
        Spot("A", 1400, 7700),
        lit_at,
    )
    state = alone(job, do("put out"), state=state)
    assert (state.flames, state.last_flame, state.gas_left) == ({}, state.now - 3, 56)


def test_changing_the_cylinder():
    state = alone(small_job(), do("watch", "ivo"), LIGHT, wait(10), do("put out"), do("change gas"))
    assert (state.gas_left, state.gas_spare) == (60, 0)


def test_moving_things_and_people():
    job = small_job(**SITE)
    move = [do("move gas", wall="A", at=0, off=9000)]
    move += [do("move extinguisher", thing="ext1", wall="A", at=5, off=7)]
    state = alone(job, *move, do("fetch warm rolls"), do("lunch"), do("clear", thing="bags"))
    assert state.gas == Spot("A", 0, 9000)
    assert state.extinguishers == {"ext1": Spot("A", 5, 7)}
    assert (state.warm_rolls, state.known["rolls"]["is"]) == (True, [])
    assert (state.people["dana"].ate, state.people["ivo"].ate) == (True, False)
    assert state.cleared == ["bags"]


def test_cold_rolls_are_known_after_a_check_and_cut_cold_until_warm_ones_come():
    job = small_job(**SITE)
    cold = alone(job, do("check rolls"), do("cut", strips=1, roll="r1"))
    assert cold.known["rolls"]["is"] == ["r1"]
    assert [strip.cold for strip in cold.strips] == [True]
    warm = alone(job, do("fetch warm rolls"), do("cut", strips=1, roll="r1"))
    assert [strip.cold for strip in warm.strips] == [False]


def test_permit_rail_seal_and_last_look():
    state = alone(LOW, do("open permit"), do("rail", wall="A"), do("last look"))
    assert (state.permit, state.rails, state.looked_round) == ("open", ["A"], 475)
    assert alone(LOW, do("close permit"), state=state).permit == "closed"
    assert list(alone(small_job(), *LAY, do("seal", wall="A")).sealed) == ["A"]


def test_laying_opens_what_was_sealed():
    job = small_job()
    state = alone(job, *LAY, do("seal", wall="A"), do("lay", wall="A", sheet=2))
    assert state.sealed == {}


def test_a_watch_has_no_end_of_its_own_and_ends_with_other_work():
    job = small_job()
    watching = played(job, do("watch", "ivo"))
    assert watching.people["ivo"].watching and watching.people["ivo"].free
    assert not played(job, do("look", "ivo", wall="A"), state=watching).people["ivo"].watching
    assert not played(job, do("end watch", "ivo"), state=watching).people["ivo"].watching


def test_the_clean_way_leaves_nothing_missing_and_nothing_found():
    job = small_job()
    state = played(job, *CLEAN)
    assert missing(job, state) == [] and state.findings == []
    assert (state.end, state.permit) == ("left", "closed")


def test_what_is_missing_is_named():
    job = corner_job()
    assert missing(job, alone(job)) == ["wall A", "wall B", "corner-0"]
    marks = [
        do("set out", wall="A", laps=[900], lap_mm=100),
        do("set out", wall="B", laps=[], lap_mm=100),
    ]
    state = alone(job, *marks, do("open permit"), do("watch", "ivo"), LIGHT)
    assert missing(job, state) == [
        "sheet A:0", "sheet A:1", "lap A:1", "lap A:2", "sheet B:0", "lap B:0", "corner-0",
        "flame", "permit",
    ]  # fmt: skip


def test_laps_are_named_from_corner_to_corner():
    job = corner_job()
    marks = [
        do("set out", wall="A", laps=[900], lap_mm=100),
        do("set out", wall="B", laps=[], lap_mm=100),
    ]
    cut = do("cut", "noor", strips=5, roll="r1")
    lay = [do("lay", wall="A", sheet=0, through=1), do("lay", wall="B", sheet=0)]
    state = alone(job, *marks, cut, *CORNER[1:], *lay)
    # A's sheets 0–1000, 900–1900, then the corner's from 1800;
    # on B the corner's to 500, then 400–1300
    found = [(lap.id, lap.from_mm, lap.to_mm) for w in ("A", "B") for lap in laps(state, w)]
    assert found == [("A:1", 900, 1000), ("A:2", 1800, 1900), ("B:0", 400, 500)]


def test_leaving_ends_it():
    state = played(small_job(), do("look", wall="A"), LEAVE)
    assert (state.ended, state.end, state.people["dana"].doing) == (450, "left", None)
