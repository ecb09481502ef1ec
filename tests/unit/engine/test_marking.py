"""A response against the answer: right, wrong, dangerous, or none that could be marked."""

import itertools
import math

import pytest

from tests.unit.engine.samples import family, scenario
from trainer.engine.mark import Mark, mark
from trainer.errors import InputError

GOOD, SHORT = scenario(7, "wide"), scenario(7, "short")


def marked(decision, made=GOOD, **response):
    return mark(family(), made, decision, response)


def test_a_choice():
    assert marked("take", row="keep-it") == Mark(True, False, 1.0, "keep-it")
    redo = marked("take", row="redo")
    assert (redo.right, redo.score, redo.misconception) == (False, 0.0, "too-strict")
    assert not redo.critical  # its own word overrides the decision's
    assert marked("take", row="never").critical


def test_go_or_stop():
    assert marked("go", row="go").right
    assert not marked("go", row="short").right and not marked("go", row="short").critical
    assert marked("go", SHORT, row="short").right
    go = marked("go", SHORT, row="go")
    assert not go.right and go.critical
    assert marked("go", row="cold").critical  # the option says so


def test_marking_the_one_part():
    worst = GOOD.values["bad"][0]
    assert marked("worst", row=worst) == Mark(True, False, 1.0, worst)
    second = marked("worst", row=GOOD.values["bad"][1])
    assert second.misconception == "second-worst" and second.critical
    (third,) = {"left", "middle", "right"} - set(GOOD.values["bad"])
    assert marked("worst", row=third).misconception == ""


def test_finding_everything():
    bad = GOOD.values["bad"]
    (fine,) = {"left", "middle", "right"} - set(bad)
    for order in itertools.permutations(bad):
        assert marked("every", rows=list(order)).right
    half = marked("every", rows=bad[:1])
    assert (half.right, half.score, half.critical) == (False, 0.5, True)
    assert half.detail == {"hits": bad[:1], "misses": bad[1:], "false_alarms": []}
    too_much = marked("every", rows=[*bad, fine])
    assert (too_much.right, too_much.score, too_much.critical) == (False, 0.5, False)
    assert marked("every", rows=[]).score == 0
    assert marked("every", rows=[fine]).score == 0
    assert marked("every", rows=[fine]).critical


def test_placing_on_the_drawing():
    assert marked("put", x_mm=100, y_mm=100).right
    assert marked("put", x_mm=75, y_mm=100).right  # 1.2 mm off, and a finger may be 2 mm off
    assert not marked("put", x_mm=74, y_mm=100).right
    assert marked("put", x_mm=74, y_mm=302).right is False
    wrong = marked("put", x_mm=50, y_mm=110)
    assert (wrong.chosen, wrong.misconception, wrong.critical) == ("near", "near-enough", False)
    assert wrong.detail == {"at": [50, 110]}
    above = marked("put", x_mm=200, y_mm=340)
    assert (above.chosen, above.critical) == ("above", True)
    nowhere = marked("put", x_mm=10, y_mm=10)
    assert (nowhere.chosen, nowhere.misconception) == ("", "")


def test_placing_by_the_list():
    assert marked("put", row="in-place").right
    assert not marked("put", row="near").critical and marked("put", row="above").critical


def test_measuring():
    answer = GOOD.decision("much").answer
    for off in (0, 3, -3):
        assert marked("much", value=answer + off).right
    for off in (3.01, -3.01):
        assert not marked("much", value=answer + off).right
    trap = marked("much", value=GOOD.values["sheet_mm"])
    assert (trap.chosen, trap.misconception) == ("all-of-it", "forgot-the-lap")
    assert trap.critical and not marked("much", value=answer - 50).critical
    assert marked("much", value=answer - 50).detail == {"given": answer - 50, "off_by": -50}


def test_telling_the_time():
    answer = GOOD.decision("until").answer
    assert marked("until", minute=answer).right and marked("until", minute=answer + 1).right
    early = marked("until", minute=GOOD.values["primed_at"])
    assert (early.right, early.misconception, early.critical) == (False, "no-time", True)
    assert marked("until", minute=float(answer)).right


def test_any_order_that_keeps_what_each_step_needs_is_right():
    steps = ["bond bottom", "roll", "press laps"]
    for order in itertools.permutations(steps):
        assert marked("row", order=list(order)).right == (list(order) == steps)
    wrong = marked("row", order=["press laps", "bond bottom", "roll"])
    assert wrong.misconception == "press-first"
    assert wrong.detail == {"step": "press laps", "needs": ["bond bottom", "roll"], "place": 0}
    assert wrong.critical  # laps that are not pressed let a flame in
    assert marked("row", order=["bond bottom", "press laps", "roll"]).misconception == ""


def test_only_an_error_against_fire_is_critical_in_an_order():
    # Steps before the first asked for are taken as done: what is missing among them hurts nobody.
    assert not marked("row", order=["bond bottom", "roll", "press laps"]).critical
    from tests.unit.engine.samples import EVERY_KIND, RULES
    from tests.unit.engine.samples import family as made_of
    from trainer.engine.solve import make

    quality = made_of(
        EVERY_KIND.replace('["bond bottom", "roll", "press laps"]', '["bond top", "bond bottom"]')
        .replace("press laps before bond bottom", "bond bottom before bond top")
    )  # fmt: skip
    made = make(quality, 7, RULES)
    upside_down = mark(quality, made, "row", {"order": ["bond bottom", "bond top"]})
    assert not upside_down.right and not upside_down.critical


HOSTILE = [
    ("take", {}, "row"),
    ("take", {"row": None}, "row"),
    ("take", {"row": "nobody"}, "row"),
    ("take", {"row": 3}, "row"),
    ("take", {"row": ["keep-it"]}, "row"),
    ("take", {"row": {"a": 1}}, "row"),
    ("take", {"value": 5}, "row"),
    ("go", {"row": ""}, "row"),
    ("go", {"row": "Go"}, "row"),
    ("worst", {"row": "up"}, "row"),
    ("worst", {"rows": ["left"]}, "row"),
    ("every", {}, "rows"),
    ("every", {"rows": "left"}, "rows"),
    ("every", {"rows": None}, "rows"),
    ("every", {"rows": ["left", "left"]}, "rows"),
    ("every", {"rows": ["left", "nobody"]}, "rows"),
    ("every", {"rows": [["left"]]}, "rows"),
    ("every", {"rows": [{}]}, "rows"),
    ("every", {"rows": [None]}, "rows"),
    ("every", {"rows": {"left": 1}}, "rows"),
    ("put", {}, "x_mm"),
    ("put", {"x_mm": 100}, "y_mm"),
    ("put", {"x_mm": math.nan, "y_mm": 1}, "x_mm"),
    ("put", {"x_mm": math.inf, "y_mm": 1}, "x_mm"),
    ("put", {"x_mm": 10**400, "y_mm": 1}, "x_mm"),
    ("put", {"x_mm": -1, "y_mm": 1}, "x_mm"),
    ("put", {"x_mm": 1, "y_mm": 401}, "y_mm"),
    ("put", {"x_mm": "100", "y_mm": 1}, "x_mm"),
    ("put", {"x_mm": True, "y_mm": 1}, "x_mm"),
    ("put", {"x_mm": [100], "y_mm": 1}, "x_mm"),
    ("put", {"row": "nobody"}, "row"),
    ("put", {"row": None, "x_mm": 1, "y_mm": 1}, "row"),
    ("much", {}, "value"),
    ("much", {"value": "832"}, "value"),
    ("much", {"value": None}, "value"),
    ("much", {"value": False}, "value"),
    ("much", {"value": math.nan}, "value"),
    ("much", {"value": -math.inf}, "value"),
    ("much", {"value": 10**400}, "value"),
    ("much", {"value": 1e10}, "value"),
    ("much", {"value": 1j}, "value"),
    ("much", {"minute": 5}, "value"),
    ("until", {"minute": -1}, "minute"),
    ("until", {"minute": 1440}, "minute"),
    ("until", {"minute": 12.5}, "minute"),
    ("until", {"minute": "16:05"}, "minute"),
    ("until", {"minute": math.nan}, "minute"),
    ("until", {"minute": True}, "minute"),
    ("until", {"value": 700}, "minute"),
    ("row", {}, "order"),
    ("row", {"order": []}, "order"),
    ("row", {"order": "roll|press laps|bond bottom"}, "order"),
    ("row", {"order": ["roll", "press laps"]}, "order"),
    ("row", {"order": ["roll", "roll", "press laps", "bond bottom"]}, "order"),
    ("row", {"order": ["roll", "press laps", "fly"]}, "order"),
    ("row", {"order": ["roll", "press laps", "bond bottom", "fly"]}, "order"),
    ("row", {"order": ["roll", "press laps", None]}, "order"),
    ("row", {"order": [["roll"], "press laps", "bond bottom"]}, "order"),
    ("row", {"order": {"roll": 1}}, "order"),
    ("nobody", {"row": "go"}, "decision"),
    (None, {"row": "go"}, "decision"),
    (["go"], {"row": "go"}, "decision"),
]


@pytest.mark.parametrize(("decision", "response", "field"), HOSTILE)
def test_a_response_that_cannot_be_taken_is_refused_by_field_value_and_what_is_allowed(
    decision, response, field
):
    with pytest.raises(InputError) as refused:
        mark(family(), GOOD, decision, response)
    assert refused.value.field == field
    assert refused.value.allowed
    assert len(str(refused.value).splitlines()) == 1


@pytest.mark.parametrize("response", [None, [], "go", 5])
def test_what_is_no_response_at_all(response):
    with pytest.raises(InputError, match="response: got"):
        mark(family(), GOOD, "go", response)


def test_a_mark_is_plain_data_and_comes_back_from_it():
    made = marked("row", order=["press laps", "bond bottom", "roll"])
    assert Mark(**made.plain()) == made
