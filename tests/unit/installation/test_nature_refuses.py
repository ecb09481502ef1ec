"""What nature does not allow, each with its sentence; and what cannot be read at all."""

import pytest

from tests.unit.installation.small_jobs import (
    LEAVE,
    LIMITS,
    alone,
    corner_job,
    do,
    played,
    small_job,
    wait,
)
from tests.unit.installation.work_so_far import CORNER, CUT, LAY, LIGHT, MARK, MELTER, SITE
from trainer.errors import InputError
from trainer.installation.run import Ended, Impossible, decide
from trainer.installation.state import as_text, begin

NAILER = {"behind": [{"id": "nail", "from_mm": 0, "to_mm": 900, "what": "timber nailer"}]}
SHOWER = {"rain": [["07:30", "08:00"]]}
TORCH = [do("watch", "ivo"), LIGHT]
FAR = small_job(gas={"minutes": 60, "wall": "A", "at_mm": 0, "off_mm": 22_701})
SMALL = small_job(**SITE)

# job, what was done before, the decision, why not
REFUSED = [
    (SMALL, [], do("touch", wall="A", at=2800), "There is no wall there."),
    (SMALL, LAY, do("touch", wall="A", at=500),
     "A sheet lies there; the finger does not reach what is under it."),
    (SMALL, [], do("prime", wall="A", stretch=(100, 2801)),
     "Wall A runs from 0 to 2800 mm; that is no stretch of it."),
    (SMALL, [], do("prime", wall="A", stretch=(500, 500)),
     "Wall A runs from 0 to 2800 mm; that is no stretch of it."),
    (SMALL, [], do("prime", wall="A", stretch=(0, 99)),
     "The roller is wider than that: prime 100 mm or more."),
    (SMALL, LAY, do("prime", wall="A", stretch=(100, 900)), "A sheet lies there already."),
    (small_job(weather=SHOWER), [], do("dry", wall="A", stretch=(0, 900)),
     "It rains: nothing gets dry now."),
    (SMALL, [], do("dry", wall="A", stretch=(900, 0)),
     "Wall A runs from 0 to 2800 mm; that is no stretch of it."),
    (SMALL, [], do("snap", wall="A", distance=50),
     "The line would lie on the cant, which reaches 50 mm from the wall."),
    (SMALL, LAY, do("set out", wall="A", laps=[900, 1800], lap_mm=100),
     "Sheets lie on this wall already; the marks are under them."),
    (SMALL, [], do("set out", wall="A", laps=[1800, 900], lap_mm=100),
     "Laps go from left to right, each once, between 0 and 2800 mm."),
    (SMALL, [], do("set out", wall="A", laps=[900, 1900], lap_mm=100),
     "Sheet 2 would be 1100 mm wide; a sheet is 1000 mm."),
    (SMALL, [], do("set out", wall="A", laps=[700, 1400, 2100, 2750], lap_mm=100),
     "Sheet 4 would reach past 2800 mm, where the last one ends."),
    (SMALL, [], do("cut", strips=1, roll="r9"), "There is no roll r9. Rolls: r1."),
    # girth 150 + 50 × √2 + 250 + 250 = 720.7, so 8 000 mm give 11
    (SMALL, [], do("cut", strips=12, roll="r1"), "Roll r1 gives 11 more."),
    (SMALL, [do("cut", strips=10, roll="r1")], do("cut", strips=2, roll="r1"),
     "Roll r1 gives 1 more."),
    (SMALL, [], do("cover", thing="nail"), "Nobody knows of “nail” here."),
    (SMALL, [], do("cover", thing="vent"), "Nobody knows of “vent” here."),
    (SMALL, [do("look", wall="A"), do("cover", thing="vent")], do("cover", thing="vent"),
     "It is covered already."),
    (small_job(wall=NAILER), [do("look", wall="A"), *LAY], do("cover", thing="nail"),
     "A sheet lies over it; strip the sheet first."),
    (SMALL, [], do("clear", thing="vent"), "“vent” is nothing that can be carried away."),
    (SMALL, [do("clear", thing="bags")], do("clear", thing="bags"),
     "It has been carried away already."),
    (SMALL, [], do("rail", wall="A"), "Edge protection stands there already."),
    (SMALL, [], do("close cans"), "No can is open."),
    (SMALL, [], do("bag film"), "No film lies about."),
    (SMALL, [CUT], do("lay", wall="A", sheet=0), "Wall A is not set out yet."),
    (SMALL, [*MARK, CUT], do("lay", wall="A", sheet=3),
     "Wall A has 3 sheets, numbered from 0."),
    (SMALL, LAY, do("lay", wall="A", sheet=1), "That sheet lies there already."),
    (SMALL, MARK, do("lay", wall="A", sheet=1), "No strip is cut."),
    (SMALL, MARK, do("roll", wall="A", sheet=1),
     "There is nothing to roll: that sheet is not there."),
    (SMALL, MARK, do("strip", wall="A", sheet=1), "That sheet is not there."),
    (SMALL, [], do("seal", wall="A"), "No sheet lies on this wall: there is no edge to seal."),
    (SMALL, [], do("light", wall="A", at=2801, off=0), "Wall A is 2800 mm long."),
    (SMALL, [do("watch", "ivo"), MELTER], MELTER, "It is lit already."),
    (SMALL, [do("watch", "ivo"), do("light", "noor", wall="A", at=0, off=0)], LIGHT,
     "Somebody else holds the torch."),
    # 22 701 − 7 701 would be just in reach
    (FAR, [], do("light", wall="A", at=0, off=7700), "The hose reaches 15 m from the cylinder."),
    (small_job(gas={"minutes": 3, "wall": "A", "at_mm": 1400, "off_mm": 12_400}),
     [*TORCH, wait(3)], LIGHT, "The cylinder is empty."),
    (SMALL, [CUT], do("preheat", strips=1), "The lit torch is not in this person's hand."),
    (SMALL, [CUT, *TORCH], do("preheat", strips=4), "3 strips lie there with their film on."),
    (SMALL, LAY, do("weld", wall="A", lap=1), "The lit torch is not in this person's hand."),
    (SMALL, [*LAY, *TORCH], do("weld", wall="A", lap=2),
     "There is no lap: its two sheets are not both there."),
    (SMALL, [*LAY, *TORCH, do("weld", wall="A", lap=1)], do("weld", wall="A", lap=1),
     "That lap is welded already."),
    (SMALL, [], do("put out"), "It is not lit."),
    (SMALL, TORCH, do("put out", "noor"), "Somebody else holds the torch."),
    (SMALL, TORCH, do("change gas", "noor"),
     "Put the torch out first: its hose hangs on the cylinder."),
    (SMALL, [do("change gas")], do("change gas"), "There is no spare cylinder on the roof."),
    (SMALL, [], do("move gas", wall="A", at=2801, off=0), "Wall A is 2800 mm long."),
    (SMALL, [], do("move extinguisher", thing="ext2", wall="A", at=0, off=0),
     "There is no extinguisher ext2."),
    (SMALL, [], do("move extinguisher", thing="ext1", wall="A", at=2801, off=0),
     "Wall A is 2800 mm long."),
    (SMALL, [do("open permit")], do("open permit"), "The permit is open already."),
    (SMALL, [], do("close permit"), "No permit is open."),
    (SMALL, [do("watch")], do("watch"), "This person stands on watch."),
    (SMALL, [], do("end watch"), "This person is not on watch."),
    (small_job(), [], do("lunch"), "The day ends before lunch."),
    (SMALL, [do("lunch")], do("lunch"), "This person has eaten."),
    (small_job(lunch={"from_at": "11:30", "by": "12:30", "minutes": 30}), [], do("lunch"),
     "It is too early for lunch."),
    (SMALL, [wait(300)], do("look", wall="A"),
     "Dana has had no lunch and will not go on without."),
    (SMALL, [do("fetch warm rolls")], do("fetch warm rolls"),
     "Warm rolls are on the roof already."),
]  # fmt: skip
AT_CORNERS = [
    (CORNER, do("lay corner", corner=0, number=1), "That sheet lies there already."),
    (CORNER[:1], do("lay corner", corner=0, number=2),
     "The second corner sheet goes over the first, and the first is not there."),
    ([], do("lay corner", corner=0, number=1), "No strip is cut."),
    ([], do("roll corner", corner=0, number=1),
     "There is nothing to roll: that sheet is not there."),
    ([], do("trim", corner=0), "There is nothing to trim: the first corner sheet is not there."),
    (CORNER, do("trim", corner=0), "The second corner sheet lies over it."),
    ([], do("fill", corner=0), "There is nothing to fill: no corner sheet is there."),
    (CORNER, do("fill", corner=0), "There is no hot bitumen: the melter is not lit."),
    ([*CORNER, do("watch", "ivo"), MELTER, wait(19)], do("fill", corner=0),
     "The bitumen is not hot yet; it takes 1 min more."),
    ([*CORNER[:2], *TORCH], do("gusset", corner=0, reach=150),
     "The corner's two sheets are not both there."),
    (CORNER, do("gusset", corner=0, reach=150), "The lit torch is not in this person's hand."),
    ([*CORNER, *TORCH, do("gusset", corner=0, reach=150)], do("gusset", corner=0, reach=150),
     "A gusset is set there already."),
    (CORNER, do("strip corner", corner=0, number=1), "The second corner sheet lies over it."),
    ([], do("strip corner", corner=0, number=1), "That sheet is not there."),
]  # fmt: skip


def refused(job, before, decision, why):
    state = alone(job, *before)
    text = as_text(state)
    with pytest.raises(Impossible) as refusal:
        decide(job, LIMITS, state, decision)
    assert str(refusal.value) == why
    assert as_text(state) == text


@pytest.mark.parametrize(("job", "before", "decision", "why"), REFUSED)
def test_nature_refuses(job, before, decision, why):
    refused(job, before, decision, why)


@pytest.mark.parametrize(("before", "decision", "why"), AT_CORNERS)
def test_nature_refuses_at_a_corner(before, decision, why):
    refused(corner_job(), before, decision, why)


def test_sheets_that_do_not_reach_each_other_cannot_be_welded():
    job = small_job()
    state = alone(job, *LAY, *TORCH)
    state.sheets["A:0"].to_mm = 900
    with pytest.raises(Impossible, match="The sheets do not reach each other there"):
        decide(job, LIMITS, state, do("weld", wall="A", lap=1))


def test_who_is_busy_is_named_with_the_time():
    job = small_job()
    busy = played(job, do("look", wall="A"))
    with pytest.raises(Impossible) as refusal:
        decide(job, LIMITS, busy, do("ask", wall="A"))
    assert str(refusal.value) == "Dana is busy until 07:34."
    laid = alone(job, *MARK, CUT)
    helping = played(job, do("look", "ivo", wall="A"), state=laid)
    with pytest.raises(Impossible, match="Ivo is busy until 07:48"):
        decide(job, LIMITS, helping, do("lay", wall="A", sheet=0, helped_by="ivo"))


@pytest.mark.parametrize(
    ("before", "first", "second"),
    [
        ([*MARK, CUT], do("lay", wall="A", sheet=0), do("lay", "ivo", wall="A", sheet=0)),
        ([*MARK, CUT], do("lay", wall="A", sheet=0),
         do("set out", "ivo", wall="A", laps=[900, 1800], lap_mm=50)),
        ([*MARK, CUT], do("set out", wall="A", laps=[900, 1800], lap_mm=50),
         do("lay", "ivo", wall="A", sheet=0)),
        (LAY, do("strip", wall="A", sheet=0), do("roll", "ivo", wall="A", sheet=0)),
        (LAY, do("roll", wall="A", sheet=0), do("strip", "ivo", wall="A", sheet=0)),
        (LAY, do("strip", wall="A", sheet=0), do("strip", "ivo", wall="A", sheet=0)),
        ([*LAY, do("light", "ivo", wall="A", at=0, off=0)], do("strip", wall="A", sheet=0),
         do("weld", "ivo", wall="A", lap=1)),
        ([], do("cut", strips=8, roll="r1"), do("cut", "ivo", strips=8, roll="r1")),
        ([], LIGHT, do("light", "ivo", wall="A", at=0, off=0)),
        ([], do("change gas"), do("change gas", "ivo")),
        ([], do("open permit"), do("open permit", "ivo")),
    ],
)  # fmt: skip
def test_two_people_cannot_do_one_thing(before, first, second):
    job = small_job()
    with pytest.raises(Impossible, match="Dana is at it"):
        played(job, first, second, state=alone(job, *before))


@pytest.mark.parametrize(
    ("before", "first", "second"),
    [
        (LAY, do("roll", wall="A", sheet=0), do("strip", "ivo", wall="A", sheet=1)),
        (LAY, do("roll", wall="A", sheet=0), do("roll", "ivo", wall="A", sheet=1)),
        ([*MARK, CUT], do("lay", wall="A", sheet=0), do("lay", "ivo", wall="A", sheet=1)),
        ([], do("cut", strips=2, roll="r1"), do("cut", "ivo", strips=2, roll="r2")),
    ],
)
def test_two_people_can_work_side_by_side(before, first, second):
    job = small_job()
    state = played(job, first, second, state=alone(job, *before))
    assert not state.people["dana"].free and not state.people["ivo"].free


@pytest.mark.parametrize(
    ("decision", "field"),
    [
        ({"do": "fly", "who": "dana"}, "do"),
        ({"who": "dana"}, "do"),
        ({"do": ["look"], "who": "dana"}, "do"),
        ({"do": "look", "wall": "A"}, "who"),
        (do("look", "zoe", wall="A"), "who"),
        (do("look", wall="B"), "wall"),
        (do("look", wall=1), "wall"),
        (do("look"), "wall"),
        (do("look", wall="A", at=3), "at"),
        (do("touch", wall="A", at=-1), "at"),
        (do("touch", wall="A", at=1.5), "at"),
        (do("prime", wall="A", stretch=("0", 100)), "from"),
        (do("cut", strips=0, roll="r1"), "strips"),
        (do("cut", strips=41, roll="r1"), "strips"),
        (do("lay", wall="A", sheet=0, half="left"), "half"),
        (do("lay", wall="A", sheet=0, helped_by="dana"), "with"),
        (do("lay", wall="A", sheet=0, through=100), "through"),
        (do("lay", wall="A", sheet=0, rolling=1), "rolling"),
        (do("trim", corner=0), "corner"),
        (do("light", tool="match", wall="A", at=0, off=0), "tool"),
        ({"do": "wait", "minutes": 721}, "minutes"),
        ({"do": "wait", "who": "dana"}, "who"),
        ({"do": "stop", "who": "dana"}, "who"),
    ],
)
def test_what_cannot_be_read_is_named(decision, field):
    job = small_job()
    state = begin(job)
    text = as_text(state)
    with pytest.raises(InputError) as error:
        decide(job, LIMITS, state, decision)
    assert error.value.field == field
    assert as_text(state) == text


def test_nothing_is_decided_after_the_end():
    job = small_job()
    ended = played(job, LEAVE)
    with pytest.raises(Ended, match="over"):
        decide(job, LIMITS, ended, wait(1))
