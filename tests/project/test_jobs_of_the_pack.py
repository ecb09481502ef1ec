"""The jobs of the pack: enough of them, plainly told, never the same twice, and they work out."""

from __future__ import annotations

import json
from collections import Counter

import pytest

from trainer.engine.reading import ease, longest_sentence, words
from trainer.installation.laps import missing
from trainer.installation.limits import limits_of
from trainer.installation.play import play
from trainer.installation.sight import Sight
from trainer.pack.glossary import load_glossary
from trainer.pack.jobs import clear_mm_of
from trainer.pack.pack import load_pack
from trainer.services.content.ease import EASE_AT_LEAST, WORDS_IN_A_SENTENCE
from trainer.services.content.length import TITLE_CHARACTERS
from trainer.services.content.vocabulary import problems

PACK = load_pack()
RULES = PACK.book.in_force()
LIMITS, CLEAR_MM = limits_of(RULES), clear_mm_of(RULES)
EVERY = pytest.mark.parametrize("name", list(PACK.jobs))
FORECAST_OFF_C = 3
"""How far real air may lie from the forecast: common practice, no source."""


def drawn(name: str, seeds: int):
    return [PACK.jobs[name].drawn(seed, CLEAR_MM) for seed in range(seeds)]


def test_there_are_enough_on_every_level():
    levels = Counter(job.level for job in PACK.jobs.values())
    assert sum(levels.values()) >= 10
    assert set(levels) == {1, 2, 3, 4} and min(levels.values()) >= 2


def test_everything_a_crew_must_cope_with_occurs_somewhere():
    jobs = [job for name in PACK.jobs for job in drawn(name, 8)]
    walls = [wall for job in jobs for wall in job.walls]
    happenings = {thing.kind for job in jobs for thing in job.happenings}
    assert {corner for job in jobs for corner in job.corners} == {"inside", "outside"}
    assert happenings == {"footprints", "dust", "smoke"}
    for occurs in (
        any(wall.damp for wall in walls),
        any(wall.behind and wall.told == "masonry" for wall in walls),
        any(not wall.rail for wall in walls),
        any(not wall.sun for wall in walls),
        any(wall.cant_mm for wall in walls),
        any(job.weather.rain for job in jobs),
        any(job.weather.forecast.rain_pct and not job.weather.rain for job in jobs),
        any(job.weather.gusts for job in jobs),
        any(roll.cold for job in jobs for roll in job.rolls),
        any(job.openings for job in jobs),
        any(job.loose for job in jobs),
        any(job.lunch for job in jobs),
        any(len(job.crew) == 2 for job in jobs),
        any(job.paper.latest_min < 180 for job in jobs),
        any(job.gas.minutes <= 50 for job in jobs),
    ):
        assert occurs


@EVERY
def test_a_title_and_a_brief_are_short_and_plain(name):
    job = PACK.jobs[name]
    text = f"{job.title_in('en')}. {job.brief_in('en')}"
    assert len(job.title_in("en")) <= TITLE_CHARACTERS and len(job.brief_in("en")) <= 240
    assert ease([job.brief_in("en")]) >= EASE_AT_LEAST
    assert len(words(longest_sentence(job.brief_in("en")))) <= WORDS_IN_A_SENTENCE
    assert list(problems(text, load_glossary())) == []


@EVERY
def test_neither_name_nor_brief_says_what_is_hidden(name):
    job = PACK.jobs[name]
    text = f"{name} {job.title_in('en')} {job.brief_in('en')}".lower()
    hidden = ("nailer", "timber", "wood", "damp", "footprint", "dust", "smoke", "cold roll")
    assert not [word for word in hidden if word in text]


@EVERY
def test_two_hundred_seeds_are_two_hundred_days(name):
    days = {json.dumps(job.plain, sort_keys=True) for job in drawn(name, 200)}
    assert len(days) >= 190


@EVERY
def test_what_the_walls_measure_occurs_on_roofs(name):
    for job in drawn(name, 40):
        for wall in job.walls:
            assert 2600 <= wall.length_mm <= 14_000
            assert 250 <= wall.height_mm <= 600
            assert all(0 <= low < high <= wall.length_mm for low, high in wall.field_laps)
            for part in (*wall.damp, *wall.behind):
                assert 0 <= part.from_mm < part.to_mm <= wall.length_mm


@EVERY
def test_a_forecast_is_honest_if_not_exact(name):
    for job in drawn(name, 40):
        said, real = job.weather.forecast, job.weather
        for start, end in real.rain:
            assert said.rain_from and said.rain_to
            assert said.rain_from <= start < end <= said.rain_to
        for start, end in real.gusts:
            assert any(low <= start and end <= high for low, high in said.gusts)
        for at in range(job.start, job.leave_by, 15):
            assert abs(Sight(job).hour(at).air_c - real.hour(at).air_c) <= FORECAST_OFF_C


def test_a_name_stands_for_the_same_skills_everywhere():
    skills = {}
    for name in PACK.jobs:
        for hand in drawn(name, 1)[0].crew:
            assert skills.setdefault(hand.name, (hand.id, hand.torch, hand.watch)) == (
                hand.id,
                hand.torch,
                hand.watch,
            )


@EVERY
def test_a_careful_crew_ends_without_a_finding(name):
    """The long suite does so with two hundred seeds."""
    for seed, job in enumerate(drawn(name, 3)):
        last = play(job, LIMITS, "book").last
        assert [(f.subject, f.place) for f in last.findings] == [], seed
        assert missing(job, last) == [] and last.end == "left", seed
