"""Time moves while nobody is idle, or by a wait; what comes by itself comes at its minute."""

import pytest

from tests.unit.installation.small_jobs import (
    LEAVE,
    STOP,
    alone,
    corner_job,
    do,
    found,
    played,
    small_job,
    standing,
    wait,
)
from tests.unit.installation.work_so_far import CUT, LAY, LIGHT, MARK
from trainer.installation.run import LONGEST_QUIET_MIN
from trainer.installation.state import begin

LOOK = [do("look", who, wall="A") for who in ("dana", "ivo", "noor")]
PRIME = do("prime", wall="A", stretch=(0, 2800))
ALARM = {"do": "alarm"}


def kinds(state):
    return [entry["kind"] for entry in state.log if entry["kind"] != "done"]


def test_time_stands_while_anybody_is_idle():
    job = small_job()
    assert [played(job, *LOOK[:k]).now for k in (0, 1, 2)] == [450, 450, 450]
    assert played(job, *LOOK).now == 454


def test_a_watch_does_not_hold_time_up():
    job = small_job()
    watching = [do("watch", "ivo"), do("watch", "noor")]
    assert played(job, *watching, do("look", wall="A")).now == 454
    everybody = played(job, *watching, do("watch"))
    assert everybody.now == 450, "nobody works: nothing ends by itself"
    assert played(job, wait(7), state=everybody).now == 457


def test_time_stops_when_the_first_is_done():
    state = played(
        small_job(), do("look", wall="A"), do("ask", "ivo", wall="A"), CUT | {"who": "noor"}
    )
    assert state.now == 453
    assert [person.free for person in state.people.values()] == [False, True, False]


def test_a_wait_ends_when_somebody_is_done_or_after_its_minutes():
    job = small_job()
    looking = played(job, do("look", wall="A"))
    assert played(job, wait(), state=looking).now == 454
    assert played(job, wait(3), state=looking).now == 453
    assert played(job, wait(9), state=looking).now == 459
    assert played(job, wait()).now == 450 + LONGEST_QUIET_MIN


@pytest.mark.parametrize(
    ("change", "minute", "kind"),
    [
        ({"weather": {"rain": [["07:40", "08:00"]]}}, 460, "rain"),
        ({"weather": {"rain": [["07:00", "07:50"]]}}, 470, "rain over"),
        ({"weather": {"gusts": [["07:45", "08:00"]]}}, 465, "gusts"),
        ({"happenings": [{"at": "07:42", "kind": "smoke", "wall": "A"}]}, 462, "smoke"),
    ],
)
def test_what_everybody_notices_ends_a_wait(change, minute, kind):
    job = small_job(**change)
    state = played(job, wait(60))
    assert (state.now, kinds(state)[-1]) == (minute, kind)
    work = [do("fetch warm rolls", "ivo"), do("cut", strips=11, roll="r1"),
            do("cut", "noor", strips=11, roll="r2")]  # fmt: skip
    assert minute < 472 and played(job, *work).now == minute, "it stops what runs by itself too"


def test_footprints_are_not_noticed():
    job = small_job(
        happenings=[{"at": "07:50", "kind": "dust", "wall": "A", "from_mm": 500, "to_mm": 900}]
    )
    state = played(job, PRIME, wait(60), wait(60), state=begin(job))
    assert kinds(state) == [] and state.now > 470
    assert [(c.from_mm, c.to_mm, c.spoilt, c.spoilt_at) for c in state.coats] == [
        (0, 500, "", 0), (500, 900, "dust", 470), (900, 2800, "", 0),
    ]  # fmt: skip
    # each piece keeps the minute at which the roller was there: 2 min a metre from 450
    assert [coat.primed_ms(coat.from_mm) for coat in state.coats] == [450_000, 451_000, 451_800]
    looked = alone(job, do("look", wall="A"), state=state)
    assert looked.known["spoilt A"]["is"] == [[500, 900, "dust"]]


def test_footprints_do_no_harm_under_a_sheet():
    dust = {"at": "09:30", "kind": "dust", "wall": "A", "from_mm": 500, "to_mm": 1300}
    job = small_job(happenings=[dust])
    state = alone(job, *MARK, CUT, PRIME, wait(60), do("lay", wall="A", sheet=0), wait(120))
    assert [(c.from_mm, c.to_mm) for c in state.coats if c.spoilt] == [(1000, 1300)]


def test_a_shower_wets_bare_walls_and_spoils_open_primer():
    job = small_job(weather={"rain": [["08:30", "08:40"]]})
    state = alone(job, do("dry", wall="A", stretch=(0, 2800)), PRIME, wait(60))
    assert (state.rained_at, state.rain_over, state.dried) == (510, 520, {})
    assert [(c.spoilt, c.spoilt_at) for c in state.coats] == [("rain", 510)]
    again = alone(job, do("prime", wall="A", stretch=(0, 1000)), state=state)
    assert again.coats[-1].damp_mm == 1000
    dried = alone(job, do("dry", wall="A", stretch=(0, 1000)), state=state)
    assert alone(job, do("prime", wall="A", stretch=(0, 1000)), state=dried).coats[-1].damp_mm == 0


def test_what_a_shower_falls_into_is_not_dried():
    job = small_job(weather={"rain": [["07:35", "07:38"]]})
    state = alone(job, do("dry", wall="A", stretch=(0, 2800)))
    assert state.dried == {}


def test_a_shower_finds_open_edges_and_not_sealed_ones():
    job = small_job(weather={"rain": [["09:00", "09:10"]]})
    rolled = [do("roll", wall="A", sheet=k) for k in (0, 1)]
    open_ = alone(job, *LAY, *rolled, wait(90))
    assert ("end-of-day-seal", "wall A", 540) in found(open_)
    assert next(f.until for f in open_.findings if f.subject == "end-of-day-seal") == 550
    sealed = alone(job, *LAY, *rolled, do("seal", wall="A"), wait(90))
    assert "end-of-day-seal" not in {subject for subject, _, _ in found(sealed)}


def test_rain_before_the_crew_came_counts():
    job = small_job(weather={"rain": [["06:00", "06:30"]]})
    state = played(job, PRIME)
    assert (state.now, state.rained_at is not None, state.coats[0].damp_mm) == (450, True, 2800)


def test_a_row_goes_on_by_itself_and_rolls_each_sheet():
    job = small_job()
    ready = alone(job, *MARK, CUT)
    state = played(job, do("lay", wall="A", sheet=0, through=2, rolling=True), wait(), state=ready)
    # from 7:44: 8 + 2 min, three times
    assert [(s.begun, s.laid_at, s.rolled_at) for s in state.sheets.values()] == [
        (464, 472, 474), (474, 482, 484), (484, 492, 494),
    ]  # fmt: skip
    assert len({s.by for s in state.sheets.values()}) == 1


def test_a_row_goes_down_as_well_as_up():
    job = small_job()
    state = alone(job, *MARK, CUT, do("lay", wall="A", sheet=2, through=0))
    assert list(state.sheets) == ["A:2", "A:1", "A:0"]


def test_a_row_breaks_off_where_nature_ends_it():
    job = small_job()
    ready = alone(job, *MARK, CUT | {"strips": 2})
    state = played(job, do("lay", wall="A", sheet=0, through=2), wait(60), state=ready)
    assert list(state.sheets) == ["A:0", "A:1"]
    assert state.log[-1] == {
        "at": 478, "kind": "broke off", "n": state.n, "who": "dana", "why": "No strip is cut.",
    }  # fmt: skip
    assert state.now == 478, "everybody notices that"


def test_a_row_breaks_off_when_the_second_hand_is_gone():
    job = small_job()
    ready = alone(job, *MARK, CUT)
    row = do("lay", wall="A", sheet=0, through=2, helped_by="ivo", rolling=True)
    state = played(job, row, wait(), state=ready)
    assert state.now == 469, "Ivo is done while Dana rolls"
    state = played(job, do("look", "ivo", wall="A"), wait(60), state=state)
    assert (state.now, state.log[-1]["why"]) == (471, "Ivo is busy.")


def test_the_gas_ends_at_its_minute_and_what_was_done_with_it_is_not_done():
    job = small_job(gas={"minutes": 5, "wall": "A", "at_mm": 1400, "off_mm": 12_400})
    lit = alone(job, *LAY, do("roll", wall="A", sheet=0), do("watch", "ivo"), LIGHT, wait(3))
    began = lit.now
    state = played(job, do("weld", wall="A", lap=1), wait(60), state=lit)
    assert (state.now, state.flames, state.welds, state.gas_left) == (began + 2, {}, {}, 0)
    assert (state.last_flame, state.people["dana"].free) == (began + 2, True)
    assert kinds(state)[-3:] == ["flame out", "gas out", "dropped"]


def test_a_flame_on_a_nailer_smokes_ten_minutes_later_even_once_it_has_gone():
    nailer = {"behind": [{"id": "nail", "from_mm": 0, "to_mm": 900, "what": "timber nailer"}]}
    job = small_job(wall=nailer)
    lit = alone(job, *LAY, do("watch", "ivo"), do("light", wall="A", at=500, off=0))
    gone = alone(job, LIGHT, do("put out"), wait(30), state=lit)
    smoke = [entry["at"] for entry in gone.log if entry["kind"] == "smoke"]
    assert smoke == [lit.now + 10]
    assert ("watch-duties", "smoke", lit.now + 15) in found(gone)
    looked = alone(job, do("look", wall="A"), state=gone)
    assert "watch-duties" not in standing(looked)


def test_a_nailer_smoulders_from_the_first_minute_of_a_weld_in_a_row():
    nailer = {"behind": [{"id": "nail", "from_mm": 0, "to_mm": 100, "what": "timber nailer"}]}
    job = small_job(wall=nailer)
    light = do("light", wall="A", at=2700, off=1200)
    lit = alone(job, *LAY, do("lay", wall="A", sheet=2), do("watch", "ivo"), light)
    # lap 1 has its middle at 950: 850 mm from the nailer; lap 2 at 1850 is far away
    state = played(job, do("weld", wall="A", lap=1, through=2), wait(60), state=lit)
    state = alone(job, wait(60), state=state)
    assert [e["at"] for e in state.log if e["kind"] == "smoke"] == [lit.now + 10]


def test_smoke_that_nobody_sees_to_keeps_its_first_minute():
    smoke = [{"at": at, "kind": "smoke", "wall": "A"} for at in ("07:40", "07:43")]
    job = small_job(happenings=smoke)
    state = alone(job, wait(30))
    assert [f for f in found(state) if f[1] == "smoke"] == [("watch-duties", "smoke", 465)]


def test_an_alarm_puts_everything_out_and_everybody_waits():
    job = small_job(happenings=[{"at": "07:40", "kind": "smoke", "wall": "A"}])
    lit = played(job, LIGHT, do("look", "ivo", wall="A"), CUT | {"who": "noor"}, wait(9))
    state = played(job, ALARM, state=lit)
    assert (state.flames, state.strips, state.smoke_answered) == ({}, lit.strips, True)
    assert state.last_flame == lit.now
    assert state.now == lit.now + 10, "all wait 10 min for the all-clear"


def test_stop_drops_everything_that_is_being_done():
    job = small_job()
    ready = alone(job, *MARK, CUT)
    state = played(job, do("lay", wall="A", sheet=0, through=2), wait(3), STOP, state=ready)
    assert (state.sheets, len(state.strips), state.now) == ({}, 2, ready.now + 3)
    assert all(person.free and not person.queue for person in state.people.values())


@pytest.mark.parametrize(("minutes", "primed"), [(0, 0), (1, 500), (3, 1500)])
def test_primer_ends_where_the_roller_stopped(minutes, primed):
    before = [PRIME, *([wait(minutes)] if minutes else [])]
    state = played(small_job(), *before, STOP)
    assert [(c.from_mm, c.to_mm) for c in state.coats] == ([(0, primed)] if primed else [])
    assert state.primed_mm == primed


def test_the_leaving_time_ends_it_whatever_is_going_on():
    job = small_job(leave_by="08:00")
    state = alone(job, wait(25), do("look", wall="A"), wait(60))
    assert (state.ended, state.end, state.people["dana"].doing) == (480, "leaving time", None)
    busy = played(job, wait(28), *LOOK)
    assert (busy.ended, busy.end) == (480, "leaving time")


def test_leaving_with_a_flame_lit_is_found_at_that_minute():
    job = small_job()
    state = alone(job, do("open permit"), do("watch", "ivo"), LIGHT, LEAVE)
    assert ("lit-torch-left", "roof", 456) in found(state)
    assert "watchers-per-torch" in standing(state)


def test_lunch_holds_up_work_for_those_who_have_not_eaten():
    job = small_job(lunch={"from_at": "07:30", "by": "07:40", "minutes": 5})
    state = alone(job, do("lunch"), wait(10))
    assert played(job, do("look", wall="A"), state=state).people["dana"].doing is not None
    row = alone(job, *MARK, CUT | {"strips": 1}, do("lay", wall="A", sheet=0), state=state)
    assert list(row.sheets) == ["A:0"]


def test_a_corner_job_runs_the_same_way():
    job = corner_job()
    assert (
        played(
            job, do("look", wall="B"), do("look", "ivo", wall="A"), do("ask", "noor", wall="B")
        ).now
        == 453
    )
