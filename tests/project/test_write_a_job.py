"""docs/write-a-job.md tells all there is, and its example is as sound as it says."""

import re
from pathlib import Path

import pytest

from tests.project.job_fields_table import GROUPS, PAGE, filled
from trainer.installation.acts_flame import HOSE_MM
from trainer.installation.job_fields import FIELDS, MINUTES
from trainer.installation.laps import missing
from trainer.installation.limits import SUBJECTS, limits_of
from trainer.installation.play import play
from trainer.pack.jobs import clear_mm_of, job_of
from trainer.pack.pack import load_pack
from trainer.pack.positions import PackError, parse

TEXT = PAGE.read_text("utf-8")
(EXAMPLE,) = re.findall(r"```yaml\n(.*?)```", TEXT, re.S)
PACK = load_pack()
RULES = PACK.book.in_force()


def test_the_tables_are_those_of_the_program():
    """``python -m tests.project.job_fields_table`` makes them anew."""
    assert filled(TEXT) == TEXT
    assert sorted(name for names in GROUPS.values() for name in names) == sorted(
        field.name for field in FIELDS
    )


def test_the_example_is_read_drawn_and_played_to_a_clean_end():
    job = job_of(parse(EXAMPLE, "docs/write-a-job.md"), clear_mm_of(RULES))
    for seed in range(5):
        drawn = job.drawn(seed, clear_mm_of(RULES))
        last = play(drawn, limits_of(RULES), "book").last
        assert (last.findings, missing(drawn, last)) == ([], [])


def test_the_drying_times_beside_the_example_are_those_it_draws():
    """35 min, then 130 % and 180 % of it, rounded up: 45.5 → 46 and 63."""
    paper = job_of(parse(EXAMPLE, "docs")).drawn(0, 0).paper
    assert [paper.drying_min(surface) for surface in (15, 10, 9)] == [35, 46, 63]
    assert "from 15 °C on 35 min, from 10 °C on 46, below that 63" in EXAMPLE


def test_jobs_rules_and_minutes_named_on_the_page_are_there():
    (sentence,) = re.findall(r"The jobs of the pack show the rest: (.*?)\.\n", TEXT, re.S)
    assert set(re.findall(r"`([a-z-]+)`", sentence)) <= set(PACK.jobs)
    (listed,) = re.findall(r"^## It must work out.*?(?=^## )", TEXT, re.S | re.M)
    named = set(re.findall(r"\(`([a-z-]+)`\)", listed))
    assert named and named <= set(SUBJECTS)
    assert f"hose, {HOSE_MM // 1000} m long" in listed
    assert f"its {MINUTES['heat the melter']} min to get hot" in listed


SPOILT = [
    ("    height_mm: {of: high}", "    hight_mm: {of: high}"),
    ("{of: long}\n", "{of: lung}\n"),
    ("width: {of: wide}", "width: 100"),
]


@pytest.mark.parametrize(("old", "new"), SPOILT)
def test_what_loading_is_said_to_tell_is_what_it_tells(old, new):
    file = Path(__file__).parents[2] / "scenarios" / "jobs" / "straight-wall.yaml"
    text = file.read_text("utf-8")
    assert old in text
    with pytest.raises(PackError) as refused:
        job_of(parse(text.replace(old, new, 1), "scenarios/jobs/straight-wall.yaml"))
    (block,) = re.findall(r"```\n(scenarios/jobs/straight-wall.*?)```", TEXT, re.S)
    shown = [re.split(r"\W*…\W*", line)[0] for line in block.splitlines()]
    told = [str(problem) for problem in refused.value.problems]
    assert any(line.startswith(start) for line in told for start in shown), told
