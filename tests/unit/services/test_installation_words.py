"""How installations are worded: sums by hand, every action and finding, what is offered."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest

from trainer.engine.measures import Units
from trainer.errors import InputError
from trainer.installation.actions import ACTIONS
from trainer.installation.coats import spoil
from trainer.installation.day import Forecast
from trainer.installation.job import Job
from trainer.installation.limits import Limits, limits_of
from trainer.installation.play import anyhow, by_the_book, play_by
from trainer.installation.run import decide
from trainer.installation.state import Finding, State, begin, copied
from trainer.pack.jobs import clear_mm_of
from trainer.pack.pack import load_pack
from trainer.roofing.rulebook import InForce
from trainer.services.installations.figures import wall_figure
from trainer.services.installations.options import at_place
from trainer.services.installations.options_fields import Option
from trainer.services.installations.places import places
from trainer.services.installations.reading import read_form
from trainer.services.installations.words import Voice
from trainer.services.installations.words_actions import told
from trainer.services.installations.words_decisions import decided
from trainer.services.installations.words_findings import Telling, _worder, line, sentence
from trainer.services.installations.words_known import wall_facts
from trainer.services.installations.words_log import news, rain_forecast

METRIC, INCHES = Voice(), Voice("en", Units("in", "F"))
VOICES = (METRIC, INCHES)
JUDGED_BY_OTHERS = {"cold-storage-from", "flame-free-band", "unprotected-edge-height"}
"""Subjects that no finding has: other findings are judged by them."""


def broken(text: str) -> str:
    """With plain spaces where a number and its unit are kept on one line."""
    return text.replace("\N{NO-BREAK SPACE}", " ")


def rules() -> InForce:
    return load_pack().book.in_force()


@cache
def job_and_limits(name: str) -> tuple[Job, Limits]:
    spec = load_pack().jobs[name]
    return spec.drawn(3, clear_mm_of(rules()), "en"), limits_of(rules())


def telling(voice: Voice = METRIC, job: str = "inside-corner") -> Telling:
    drawn, _ = job_and_limits(job)
    state = begin(drawn)
    state.layouts["A"] = {"laps": [900, 1800], "lap_mm": 60, "by": 1}
    return Telling(voice, drawn, state, rules())


# Each sum by hand from its own numbers: 75 − 60 = 15; 3 in = 76.2 mm, 60 mm = 2.362 in ≈ 2 3/8,
# 76.2 − 60 = 16.2 mm = 0.638 in ≈ 5/8; 4572 is 15 ft, said in metres as 4.5: 4.5 − 3.041 = 1.459.
SUMS = (
    ("side-lap", "lap A:1", {"lap_mm": 60, "required_mm": 76.2}, METRIC,
     "The lap of sheets 1 and 2 of wall A is 60 mm wide; the rule asks 75 mm: 15 mm short."),
    ("side-lap", "lap A:1", {"lap_mm": 60, "required_mm": 76.2}, INCHES,
     "The lap of sheets 1 and 2 of wall A is 2 3/8 in wide; the rule asks 3 in: 5/8 in short."),
    ("side-lap", "lap A:1", {"lap_mm": 76, "required_mm": 76.2}, METRIC,
     "The lap of sheets 1 and 2 of wall A is 76 mm wide; the rule asks 76.2 mm: 0.2 mm short."),
    ("cylinder-to-burner", "torch", {"distance_mm": 3041, "required_mm": 4572}, METRIC,
     "The gas cylinder stands 3.041 m from the torch; the rule asks 4.5 m: 1.459 m too near."),
    ("fire-watch", "watch", {"last_flame": 845, "watch_min": 120}, METRIC,
     "Nobody trained is on watch: last flame 14:05, the rule asks 2 h, so until 16:05."),
    ("adhesive-lap-temperature", "A:0", {"surface_c": 4, "least_c": 6}, INCHES,
     "The face was 39.2 °F when sheet 1 of wall A went on; the rule asks 42.8 °F:"
     " 3.6 °F too cold."),
)  # fmt: skip


@pytest.mark.parametrize(("subject", "place", "facts", "voice", "said"), SUMS)
def test_a_finding_is_said_with_its_sum(subject, place, facts, voice, said) -> None:
    finding = Finding(subject, place, "quality", 600, 1, facts)
    assert broken(sentence(telling(voice), finding)) == said


def test_a_finding_names_its_rule_its_time_and_the_decision_that_caused_it() -> None:
    facts = {"lap_mm": 60, "required_mm": 76.2}
    finding = Finding("side-lap", "lap A:1", "quality", 600, 1, facts, until=630)
    decisions = [{"do": "lay", "who": "dana", "wall": "A", "sheet": 1}]
    told_so = line(telling(), finding, decisions)
    assert told_so.rule.startswith("Side lap: at least 75 mm; UFGS 07550")
    assert (told_so.since, told_so.over) == ("10:00 to 10:30", True)
    assert told_so.cause == "Decision 1: Dana lays sheet 2 of wall A."


def test_every_subject_that_can_be_found_has_words() -> None:
    from trainer.installation.limits import SUBJECTS

    assert {s for s in SUBJECTS if _worder(s) is None} <= JUDGED_BY_OTHERS


def test_every_action_has_its_three_texts() -> None:
    assert set(told("en")) == set(ACTIONS)


@pytest.mark.parametrize(
    ("decision", "said"),
    [
        ({"do": "prime", "who": "dana", "wall": "A", "from": 0, "to": 4000},
         "Dana primes wall A, 0 to 4 m."),
        ({"do": "lay", "who": "noor", "wall": "A", "sheet": 2, "through": 5, "rolling": True,
          "with": "dana"},
         "Noor lays sheets 3 to 6 of wall A, each rolled at once, with Dana."),
        ({"do": "lay corner", "who": "noor", "corner": 0, "number": 2},
         "Noor lays the second sheet of corner A–B."),
        ({"do": "wait", "minutes": 0}, "Everybody waits until something happens."),
        ({"do": "alarm"}, "The alarm is raised."),
    ],
)  # fmt: skip
def test_a_decision_is_said_as_a_foreman_would(decision, said) -> None:
    drawn, _ = job_and_limits("inside-corner")
    assert broken(decided(METRIC, drawn, begin(drawn), decision)) == said


def test_the_forecast_is_one_sentence() -> None:
    likely = Forecast(720, 810, 70, (), ())
    assert rain_forecast(METRIC, likely) == "Shower likely between 12:00 and 13:30 (70 %)."
    assert rain_forecast(METRIC, Forecast(None, None, 0, (), ())) == "No rain in the forecast."


def test_what_a_finger_found_is_said_at_once() -> None:
    drawn, limits = job_and_limits("straight-wall")
    touch = {"do": "touch", "who": "dana", "wall": "A", "at": 1200}
    state = decide(drawn, limits, begin(drawn), touch)
    state = decide(drawn, limits, state, {"do": "wait"})
    assert [broken(text) for _, text in news(METRIC, drawn, state, state.log)] == [
        "Dana has touched wall A at 1.2 m: bare."
    ]


# Reading what a form holds.


def test_inches_are_read_up_where_a_rule_asks_at_least_so_much() -> None:
    form = {"do": ["gusset"], "who": ["dana"], "corner": ["0"], "reach": ["4"]}
    assert read_form(INCHES, form)["reach"] == 102  # 4 in = 101.6 mm
    form = {"do": ["touch"], "who": ["dana"], "wall": ["A"], "at": ["4"]}
    assert read_form(INCHES, form)["at"] == 102
    form["at"] = ["39 3/8 in"]
    assert read_form(INCHES, form)["at"] == 1000  # 1000.1 mm


def test_a_field_left_as_it_was_filled_means_exactly_that() -> None:
    form = {"do": ["touch"], "who": ["dana"], "wall": ["A"], "at": ["13 ft 9 3/8 in"]}
    assert read_form(INCHES, form)["at"] == 4201
    assert read_form(INCHES, {**form, "at-filled": ["4200|13 ft 9 3/8 in"]})["at"] == 4200


@pytest.mark.parametrize("text", ["", "far", "-5", "1e9", "99999", "1,5"])
def test_what_is_no_length_is_refused_by_name(text: str) -> None:
    with pytest.raises(InputError) as refused:
        read_form(METRIC, {"do": ["snap"], "who": ["dana"], "wall": ["A"], "distance": [text]})
    assert refused.value.field == "distance"


# Whatever is offered can be done.


def states(job: Job, limits: Limits) -> Iterator[State]:
    for adviser in (by_the_book(job, limits), anyhow(job, 1)):
        every = play_by(job, limits, adviser).states
        yield from every[:: max(1, len(every) // 5)]


def as_sent(option: Option) -> dict[str, list[str]]:
    """What a form sends that is taken as it was filled in."""
    form = {"do": [option.act], "who": [option.who[0].id]}
    form |= {name: [value] for name, value in option.fixed}
    for entry in option.entries:
        form[entry.name] = list(entry.texts)
        form[f"{entry.name}-filled"] = [pair for _, pair in entry.pairs]
    return form


@pytest.mark.parametrize("name", ["inside-corner", "old-masonry", "whole-day"])
def test_whatever_is_offered_can_be_done_as_it_stands(name: str) -> None:
    job, limits = job_and_limits(name)
    offered = 0
    for voice in VOICES:
        for state in states(job, limits):
            for place in places(voice, job, state):
                for option in at_place(voice, job, state, place.id):
                    if option.cannot or any(e.needed and not e.texts for e in option.entries):
                        continue
                    decide(job, limits, state, read_form(voice, as_sent(option)))
                    offered += 1
    assert offered > 200


def test_what_fell_on_primer_shows_nowhere_before_somebody_looks() -> None:
    job, limits = job_and_limits("straight-wall")
    prime = {"do": "prime", "who": "dana", "wall": "A", "from": 0, "to": 3000}
    clean = decide(job, limits, begin(job), prime)
    spoilt = copied(clean)
    spoil(spoilt, "A", 1200, 1700, "footprints")
    assert len(spoilt.coats) == 3
    assert wall_facts(METRIC, job, spoilt, "A") == wall_facts(METRIC, job, clean, "A")
    told = {"say": METRIC.say, "length": METRIC.length}
    assert wall_figure(job, spoilt, "A", **told) == wall_figure(job, clean, "A", **told)
    offered = [
        [at_place(METRIC, job, state, place.id) for place in places(METRIC, job, state)]
        for state in (clean, spoilt)
    ]
    assert offered[0] == offered[1]
