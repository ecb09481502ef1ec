"""``trainer installation``: what it prints for people and for programs."""

from __future__ import annotations

import json
import re

import pytest
from click.testing import CliRunner
from installed import JOB, decide_by_the_book, key
from sqlalchemy import update

from trainer.cli import main
from trainer.installation.limits import SUBJECTS, limits_of
from trainer.installation.run import decide
from trainer.installation.state import begin
from trainer.pack.jobs import clear_mm_of
from trainer.records.tables import InstallationDecision
from trainer.services.installations import store
from trainer.services.scenarios import library

CLOCK = re.compile(r"([01]\d|2[0-3]):[0-5]\d")


@pytest.fixture
def run(settings):
    """run("list", "--json") → status, output, errors; on the test's own database."""

    def command(*words: str):
        env = {"TRAINER_INSTANCE": str(settings.instance)}
        result = CliRunner().invoke(main, ["installation", *words], env=env)
        return result.exit_code, result.stdout, result.stderr

    return command


def test_the_list_as_data_and_for_reading(run) -> None:
    status, out, _ = run("list", "--json")
    jobs = json.loads(out)
    assert status == 0 and [job["id"] for job in jobs] == list(library().pack.jobs)
    for job in jobs:
        assert set(job) == {"id", "version", "level", "title", "brief"}
    status, out, _ = run("list")
    assert status == 0 and [line.split()[0] for line in out.splitlines()] == [
        job["id"] for job in jobs
    ]


def drawn_with(wanted, seed: int = 4):
    """The first job of the pack that, drawn with the seed, has what is wanted."""
    rules = library().rules
    jobs = (spec.drawn(seed, clear_mm_of(rules)) for spec in library().pack.jobs.values())
    return next(job for job in jobs if wanted(job))


def test_a_drawn_job_as_the_crew_is_told_it_hides_what_nobody_knows(run) -> None:
    job = drawn_with(lambda job: any(wall.behind for wall in job.walls))
    status, out, _ = run("show", job.id, "--seed", "4")
    assert status == 0
    for wall in job.walls:
        assert f"wall {wall.id}: {wall.length_mm} mm long, {wall.height_mm} mm high" in out
    for hand in job.crew:
        assert hand.name in out
    assert "forecast:" in out and job.title in out and job.brief in out
    told = out.replace(job.brief, "").replace(job.title, "")
    assert not any(part.what in told for wall in job.walls for part in wall.behind)


def test_a_shower_and_gusts_are_told_as_forecast(run) -> None:
    wet = drawn_with(lambda job: job.weather.forecast.rain_from is not None)
    said = wet.weather.forecast
    out = run("show", wet.id, "--seed", "4")[1]
    assert f"a shower from {said.rain_from // 60:02}:{said.rain_from % 60:02}" in out
    assert f", {said.rain_pct} %" in out
    gusty = drawn_with(lambda job: job.weather.forecast.gusts)
    low, high = gusty.weather.forecast.gusts[0]
    wanted = f"gusts from {low // 60:02}:{low % 60:02} to {high // 60:02}:{high % 60:02}"
    assert wanted in run("show", gusty.id, "--seed", "4")[1]


def test_a_drawn_job_as_data_is_the_whole_job(run) -> None:
    status, out, _ = run("show", JOB, "--seed", "7", "--json")
    shown = json.loads(out)
    job = library().pack.job(JOB).drawn(7, clear_mm_of(library().rules))
    assert status == 0 and shown == {"seed": 7, "job": json.loads(json.dumps(job.plain))}
    assert run("show", JOB, "--seed", "7", "--json")[1] == out


@pytest.mark.parametrize("by", ["book", "careless", "random"])
def test_played_as_data(run, by: str) -> None:
    status, out, _ = run("play", JOB, "--seed", "7", "--by", by, "--json")
    done = json.loads(out)
    assert status == 0 and (done["job"], done["seed"], done["by"]) == (JOB, 7, by)
    for finding in done["findings"]:
        assert set(finding) == {"rule", "severity", "at", "cause", "place", "until"}
        assert finding["rule"] in SUBJECTS and finding["severity"] in ("critical", "quality")
        assert CLOCK.fullmatch(finding["at"]) and 0 < finding["cause"] <= len(done["decisions"])
    assert CLOCK.fullmatch(done["end"]) and done["finished"] == (not done["missing"])
    assert done["bound"] <= done["best_end"]
    if by == "book":
        assert done["findings"] == [] and done["finished"]
        assert done["best_end"] <= done["end"]
    if by == "careless":
        assert done["findings"]


def test_the_decisions_printed_lead_to_the_end_printed(run) -> None:
    done = json.loads(run("play", JOB, "--seed", "2", "--by", "careless", "--json")[1])
    rules = library().rules
    job = library().pack.job(JOB).drawn(2, clear_mm_of(rules))
    state = begin(job)
    for decision in done["decisions"]:
        state = decide(job, limits_of(rules), state, decision)
    assert f"{state.ended // 60:02}:{state.ended % 60:02}" == done["end"]
    assert [f.subject for f in state.findings] == [f["rule"] for f in done["findings"]]


def test_played_for_reading(run) -> None:
    status, out, _ = run("play", JOB, "--seed", "7")
    assert status == 0 and "no findings" in out and "best end" in out and "finished at" in out
    out = run("play", JOB, "--seed", "7", "--by", "careless")[1]
    assert "because of decision" in out


@pytest.fixture
def stored(parts, sign_in) -> str:
    ana = sign_in("ana")
    opened = store.open_installation(parts, ana, JOB, seed=3)
    number = decide_by_the_book(parts, ana, opened, 9).number
    store.take_back(parts, ana, opened, number, key(1))
    return opened


def test_a_stored_installation_is_replayed(run, stored) -> None:
    status, out, _ = run("replay", stored, "--json")
    done = json.loads(out)
    assert status == 0
    assert (done["installation"], done["job"], done["seed"]) == (stored, JOB, 3)
    assert (len(done["decisions"]), done["taken_back"], done["differences"]) == (8, 1, [])
    assert done["end"] is None and not done["finished"]
    status, out, _ = run("replay", stored)
    assert status == 0 and "8 decisions, goes on" in out


def test_a_stored_one_that_comes_out_differently_is_said_with_status_1(run, stored, parts) -> None:
    with parts.database.writing() as session:
        chosen = InstallationDecision.number == 2
        session.execute(update(InstallationDecision).where(chosen).values(state_digest="0" * 64))
    status, out, _ = run("replay", stored)
    assert status == 1 and "decision 2: leads to another state" in out


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (("show", "no-such-job", "--seed", "1"), "no-such-job"),
        (("show", JOB, "--seed", "-1"), "-1"),
        (("show", JOB, "--seed", "soon"), "soon"),
        (("show", JOB), "--seed"),
        (("play", "no-such-job", "--seed", "1"), "no-such-job"),
        (("play", JOB, "--seed", "1", "--by", "heart"), "heart"),
        (("replay", "nothing-here"), "installation"),
        (("replay", "-begins-with-a-dash"), "installation"),
    ],
)
def test_bad_input_is_one_line_and_status_2(run, words: tuple[str, ...], named: str) -> None:
    status, out, err = run(*words)
    assert status == 2 and out == ""
    assert len(err.strip().splitlines()) == 1 and named in err
