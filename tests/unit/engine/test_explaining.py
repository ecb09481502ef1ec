"""Every text of a scenario, in either system of units, before and after an answer."""

import dataclasses

import pytest

from tests.unit.engine.samples import family, scenario
from trainer.engine.explain import Telling
from trainer.engine.mark import Mark, mark
from trainer.engine.measures import Units

MADE, SHORT = scenario(7, "wide"), scenario(7, "short")
TOLD = Telling(family(), MADE)
US = Telling(family(), MADE, "en", Units("in", "F"))
LAP, SHEET = MADE.values["lap_mm"], MADE.values["sheet_mm"]


def explained(decision_id, telling=TOLD, **response):
    made = mark(family(), telling.scenario, decision_id, response)
    return telling.explain(telling.scenario.decision(decision_id), response, made)


def test_the_situation_in_both_systems():
    said = f"A sheet {SHEET} mm wide, its lap {LAP} mm. Primed at 09:00, 14.5 °C."
    assert TOLD.situation == (said,)
    assert US.situation[0].endswith("in. Primed at 09:00, 58.1 °F.")
    assert Telling(family(), SHORT).situation[1] == "Something looks narrow."
    assert TOLD.title == "Every kind" and TOLD.caution == ("Mind the edge.",)
    assert TOLD.look == "A wall of 2.74 m."


def test_rows_are_full_sentences_in_the_order_shown():
    take = MADE.decision("take")
    assert [row for row, _ in TOLD.rows(take)] == [option.id for option in take.options]
    assert dict(TOLD.rows(take))["keep-it"] == "Keep it."
    assert dict(TOLD.rows(MADE.decision("worst")))["left"] == "The one at 100 mm."
    assert dict(US.rows(MADE.decision("worst")))["left"] == "The one at 3 7/8 in."
    assert dict(TOLD.rows(MADE.decision("row")))["roll"] == "roll it"
    assert TOLD.rows(MADE.decision("much")) == TOLD.rows(MADE.decision("until")) == ()


def test_right_because():
    told = explained("take", row="keep-it")
    assert told.because == (f"the rule asks for 75 mm, and it has {LAP} mm.",)
    assert (told.chosen, told.correct, told.leads_to) == ("Keep it.", "", ())
    assert told.caution == ("Mind the edge.",)
    assert "the rule asks for 3 in" in explained("take", US, row="keep-it").because[0]


def test_not_yet_because():
    told = explained("take", row="never")
    assert told.because == ("no: keep-it was right, not never.",)
    assert (told.chosen, told.correct) == ("Leave it out.", "Keep it.")
    assert told.leads_to == ("Water.",)
    assert explained("take", row="redo").because == ("it was good.",)  # its own words come first


def test_the_answer_to_go_or_stop():
    assert explained("go", row="short").correct == "Go."
    assert explained("go", Telling(family(), SHORT), row="go").correct == "Stop, it is short."


def test_marks_and_finds():
    first, second = MADE.values["bad"]
    (third,) = {"left", "middle", "right"} - {first, second}
    assert explained("worst", row=second).because == ("nearly.",)  # the words of the mistake
    assert explained("worst", row=third).because == (f"not the {third}.",)
    told = explained("every", rows=[first, third])
    assert told.because == ("left out 1, wrongly marked 1, found 1.",)
    assert told.chosen == f"The {first} one; The {third} one."
    order = [p for p in ("left", "middle", "right") if p in (first, second)]
    assert told.correct == "; ".join(f"The {p} one" for p in order) + "."
    assert explained("every", rows=[]).chosen == "—"


def test_places():
    assert explained("put", x_mm=10, y_mm=20).because == ("not at 10 mm.",)
    assert explained("put", x_mm=10, y_mm=20).chosen == "10 mm · 20 mm"
    assert explained("put", row="near").because == ("not at 50 mm.",)
    assert explained("put", row="near").chosen == "There."
    assert explained("put", row="near").correct == "Here."


def test_numbers_in_the_workers_own_units():
    answer = MADE.decision("much").answer  # 914 − 81.5 = 832.5; whole millimetres are said
    told = explained("much", value=answer - 25.4)
    assert told.because == ("807 mm is off by −25.4 mm.",)
    assert told.sums == ("914 mm − 81.5 mm = 832 mm",)
    assert told.correct == "832 mm"
    assert "is off by −1 in." in explained("much", US, value=answer - 25.4).because[0]
    assert explained("much", value=SHEET).because == ("the lap is hidden.",)


def test_times():
    told = explained("until", minute=500)
    assert (told.chosen, told.correct) == ("08:20", "Until 12:00.")
    assert told.because == ("no, 12:00.",)


def test_orders():
    told = explained("row", order=["bond bottom", "press laps", "roll"])
    assert told.because == ("press it needs roll it first.",)
    assert told.chosen == "bond it → press it → roll it"
    assert told.correct == "bond it → roll it → press it"
    told = explained("row", order=["press laps", "bond bottom", "roll"])
    assert told.because == ("there is no lap yet.",)
    assert explained("row", order=["bond bottom", "roll", "press laps"]).because == ("so it goes.",)


def test_a_worked_example_needs_no_details_of_a_mark():
    for decision, response in (
        ("take", {"row": "keep-it"}),
        ("every", {"rows": MADE.decision("every").answer}),
        ("much", {"value": MADE.decision("much").answer}),
        ("until", {"minute": MADE.decision("until").answer}),
        ("row", {"order": MADE.decision("row").answer}),
    ):
        assert TOLD.explain(MADE.decision(decision), response, Mark(True, score=1.0)).because


def test_the_figure_with_its_labels_in_words():
    figure = TOLD.figure()
    assert figure["label"] == f"lap {LAP} mm" and figure["pieces"] == [{"at": LAP / 2}, "plain"]
    assert (figure["title"], figure["desc"]) == (TOLD.title, TOLD.look)
    assert "movable" not in figure and figure["after"] == []
    assert TOLD.figure(waiting="put")["movable"] == {"from": LAP}
    answered = TOLD.figure(answered=["put", "much"])
    assert answered["after"] == [{"at": 76.2}, {"at": 1}]
    assert answered["note"] == f"lap {LAP} mm"
    assert MADE.figure["label"] == "@lap"  # nothing of the scenario was changed


def test_a_language_that_is_not_there_is_english():
    assert Telling(family(), MADE, "fr").title == "Every kind"
    french = dataclasses.replace(family().words["en"], title="Chaque sorte")
    both = dataclasses.replace(family(), words={**family().words, "fr": french})
    assert Telling(both, MADE, "fr").title == "Chaque sorte"


def test_shared_words():
    assert TOLD.join("step", ["roll", "press laps"]) == "roll it, press it"
    with pytest.raises(KeyError):
        TOLD.word("step", "fly")
