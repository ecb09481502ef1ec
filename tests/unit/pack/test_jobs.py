"""Jobs as they come out of their files: read, drawn, and refused with all that is wrong at once."""

from __future__ import annotations

import random
from contextlib import suppress

import pytest
import yaml

from tests.integration.small_pack import SmallPack
from trainer.errors import InputError
from trainer.pack import jobs as jobs_module
from trainer.pack.jobs import SEEDS_TRIED, clear_mm_of, job_of, strips_due
from trainer.pack.pack import load_pack
from trainer.pack.positions import PackError, parse

JOB = """\
id: small-wall
version: 2
level: 1
title: {en: A small wall, fr: Un petit mur}
brief: {en: Dress it., fr: Habillez-le.}
draws:
  long: {between: [2000, 2600], step: 200}
  first: {between: [250, 450], step: 50}
  wet: {one_of: [true, false]}
  rain_at: {between: ["11:00", "12:00"], step: 30}
  told: {one_of: [masonry, concrete]}
start: "07:00"
leave_by: "15:00"
walls:
  - id: A
    length_mm: {of: long}
    height_mm: 400
    field_laps: {every: 1000, first: {of: first}, width: 100, until: {of: long}}
    damp:
      - {from_mm: {of: first}, to_mm: {of: first, plus: 500}, dry_at: "09:00"}
    told: {of: told}
sheet: {width_mm: 1000, side_lap_mm: 100, least_mm: 300, roll_mm: 8000}
rolls: [{id: r1}]
paper: {dry_min: 30, slower: [[15, 100], [-50, 150]]}
crew:
  - {id: dana, name: Dana, torch: true}
  - {id: ivo, name: Ivo, watch: true}
gas: {minutes: 100, wall: A, at_mm: 1000, off_mm: 6000}
melter: {wall: A, at_mm: 1000, off_mm: 2000}
extinguishers: [{id: e1, wall: A, at_mm: 1000, off_mm: 3000}]
weather:
  rain: {if: wet, then: [[{of: rain_at}, {of: rain_at, plus: 45}]], else: []}
  path: [{at: "06:00", air_c: 15, rh_pct: 60}]
  forecast: {air: [{at: "06:00", air_c: 15, rh_pct: 60}]}
"""


def spec(old: str = "", new: str = "", clear_mm: int = 102):
    assert old in JOB
    return job_of(parse(JOB.replace(old, new, 1), "small-wall.yaml"), clear_mm)


def complaints(old: str, new: str, clear_mm: int = 102) -> list[str]:
    with pytest.raises(PackError) as refused:
        spec(old, new, clear_mm)
    return [str(problem) for problem in refused.value.problems]


def line_of(text: str) -> int:
    return JOB[: JOB.index(text)].count("\n") + 1


# ---- reading and drawing --------------------------------------------------------------------


def test_a_job_keeps_its_name_its_level_and_its_texts():
    job = spec()
    assert (job.id, job.version, job.level) == ("small-wall", 2, 1)
    assert job.title_in("fr") == "Un petit mur"
    assert (job.title_in("de"), job.brief_in("de")) == ("A small wall", "Dress it.")


def test_a_seed_gives_the_same_job_every_time_in_either_language():
    one, again, french = spec().drawn(7, 102), spec().drawn(7, 102), spec().drawn(7, 102, "fr")
    assert one == again
    assert (french.title, french.brief) == ("Un petit mur", "Habillez-le.")
    assert french.walls == one.walls and french.weather == one.weather


def test_every_drawn_value_comes_out_within_its_range_and_all_of_them_come():
    drawn = [spec().drawn(seed, 102) for seed in range(60)]
    assert {job.walls[0].length_mm for job in drawn} == {2000, 2200, 2400, 2600}
    assert {job.walls[0].told for job in drawn} == {"masonry", "concrete"}
    showers = {job.weather.rain for job in drawn}
    # 11:00, 11:30 and 12:00 are 660, 690 and 720 minutes after midnight; a shower lasts 45
    assert showers == {(), ((660, 705),), ((690, 735),), ((720, 765),)}


def test_even_laps_of_the_field_as_worked_out_by_hand():
    job = spec("long: {between: [2000, 2600], step: 200}", "long: {one_of: [2300]}")
    wall = next(w for s in range(40) if (w := job.drawn(s, 0).walls[0]).damp[0].from_mm == 250)
    # begin at 250, then 1000 further each time, while that is on the wall of 2300; each 100 wide
    assert wall.field_laps == ((250, 350), (1250, 1350), (2250, 2300))
    assert wall.damp[0].to_mm == 750


def test_a_seed_that_is_none_is_refused():
    for seed in (-1, 1.5, "3", True):
        with pytest.raises(InputError, match=r"seed: got .* allowed: a whole number from 0"):
            spec().drawn(seed, 102)


def test_laps_keep_whole_millimetres_clear():
    """4 in are 101.6 mm (an inch is 25.4 mm, NIST SP 811, B.8), so whole millimetres need 102."""
    assert clear_mm_of(load_pack().book.in_force()) == 102


def test_where_no_rule_gives_a_distance_there_is_none_to_keep(tmp_path):
    assert clear_mm_of(load_pack(SmallPack(tmp_path).root).book.in_force()) == 0


def test_strips_due_are_sheets_and_two_for_every_corner():
    # 2300 mm in sheets of 1000 that lap 100: 1000 + 900 + 400; no field lap in the way
    job = spec("long: {between: [2000, 2600], step: 200}", "long: {one_of: [2300]}").drawn(0, 0)
    assert strips_due(job, 0) == 3
    assert strips_due(load_pack().jobs["u-shape"].drawn(1, 102), 102) >= 2 * 2 + 3


# ---- what is refused ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("old", "new", "complaint"),
    [
        ("version: 2", "version: two", 'version: got "two"; allowed: a whole number ≥ 1'),
        ("level: 1", "level: 5", "level: got 5; allowed: a whole number ≥ 1 and ≤ 4"),
        ("level: 1", "level: {of: long}", 'level: got {"of": "long"}; allowed: a whole'),
        ("id: small-wall", "id: small wall", "id: got \"small wall\"; allowed: 1 to 40 letters"),
        ("title: {en: A small wall, ", "title: {", "title.en: missing; allowed: text, not empty"),
        ("brief: {en: Dress it., fr: Habillez-le.}", "brief: Dress it.",
         'brief: got "Dress it."; allowed: a text for each language'),
        ("title: {en: A small wall,", 'title: {en: " ",', "title.en: got \" \"; allowed: text"),
        ("leave_by:", "leave_at:", "leave_at: no such field; allowed: id, version"),
        ("leave_by:", "leave_at:", "(did you mean leave_by?)"),
        ("leave_by:", "leave_at:", 'leave_by: missing; allowed: "HH:MM"'),
        ('start: "07:00"', 'start: "7:00"', 'start: got "7:00"; allowed: "HH:MM" from 00:00'),
        ("    height_mm: 400\n", "", "walls[0].height_mm: missing; allowed: a whole number"),
        ("height_mm: 400", "height_mm: 4o0", 'walls[0].height_mm: got "4o0"; allowed: a whole'),
        ("height_mm: 400", "height_mm: 5", "walls[0].height_mm: got 5; allowed: a whole"),
        ("height_mm: 400", "hight_mm: 400", "walls[0].hight_mm: no such field; allowed: id, len"),
        ('dry_at: "09:00"', "dry_at: 9", 'walls[0].damp[0].dry_at: got 9; allowed: "HH:MM"'),
        ("rolls: [{id: r1}]", "rolls: []", "rolls: got []; allowed: a list of 1 or more"),
        ("[[15, 100], [-50, 150]]", "[[15, 100, 3]]",
         "paper.slower[0]: got [15, 100, 3]; allowed: [from °C, percent]: two entries"),
        ("torch: true", "torch: often", 'crew[0].torch: got "often"; allowed: true or false'),
        ("every: 1000, ", "", "walls[0].field_laps: got {"),
        ("every: 1000", "every: 0", "walls[0].field_laps.every: got 0; allowed: a whole number"),
        ("width: 100, ", "", "walls[0].field_laps.width: missing; allowed: a whole number ≥ 1"),
        ("else: []}", "}", "weather.rain.else: missing; allowed: a list"),
        ("else: []}", "els: []}", "weather.rain.els: no such field; allowed: if, then, else"),
        ("{of: long}", "{of: lung}",
         'walls[0].length_mm.of: got "lung"; allowed: one of the draws: long, first, wet, rain_at, '
         "told (did you mean long?)"),
        ("{of: long}", "{of: Long}", 'walls[0].length_mm.of: got "Long"; allowed: a name of small'),
        ("{of: long}", "{of: long, plus: a lot}", 'length_mm.plus: got "a lot"; allowed: a'),
        ("told: {of: told}", "told: {of: told, plus: 3}",
         'told.of: got "told" with plus; allowed: a draw of whole numbers or of times'),
        ("{if: wet", "{if: told", 'rain.if: got "told"; allowed: a draw with one_of: [true'),
        ("step: 200", "step: 0", "draws.long.step: got 0; allowed: a whole number ≥ 1"),
        ("[2000, 2600]", "[2600, 2000]", "draws.long.between: got [2600, 2000]; allowed: the"),
        ("[2000, 2600]", '[2000, "12:00"]', 'draws.long.between: got [2000, "12:00"]; allowed'),
        ("[true, false]", "[]", "draws.wet.one_of: got []; allowed: a list of 1 or more"),
        ("{one_of: [true, false]}", "3", "draws.wet: got 3; allowed: a block of between and step"),
        ("  told: {one", "  more: {one_of: [1]}\n  told: {one", "draws.more: drawn and never used"),
        ("told: {of: told}", "told: {of: told}\n    told: brick", "told: given twice"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_said_with_field_value_and_what_is_allowed(old, new, complaint):
    found = complaints(old, new)
    assert any(complaint in said for said in found), found
    assert all(said.startswith("small-wall.yaml:") for said in found)


def test_all_of_a_file_is_said_at_once_line_by_line():
    text = JOB.replace("level: 1", "level: 9").replace("height_mm: 400", "height_mm: low")
    text = text.replace("wall: A, at_mm: 1000, off_mm: 6000", "wall: A, at: 1000, off_mm: 6000")
    with pytest.raises(PackError) as refused:
        job_of(parse(text, "small-wall.yaml"))
    assert [(problem.line, problem.where) for problem in refused.value.problems] == [
        (line_of("level: 1"), "level"),
        (line_of("height_mm: 400"), "walls[0].height_mm"),
        (line_of("gas:"), "gas.at"),
        (line_of("gas:"), "gas.at_mm"),
    ]


@pytest.mark.parametrize("text", ["", "- 1\n", "walls: 3\ndraws: [1]\n", "draws: {a: {of: b}}\n"])
def test_what_is_no_job_at_all_is_said_and_nothing_breaks(text):
    with pytest.raises(PackError):
        job_of(parse(text, "small-wall.yaml"))


@pytest.mark.parametrize(
    ("old", "new", "complaint"),
    [
        # the upper end alone is too long for any wall, and is drawn by one seed in hundreds
        ("[2000, 2600], step: 200", "[2000, 40100], step: 100",
         "walls[0].length_mm: got 40100; allowed: a whole number ≥ 600 and ≤ 40000"),
        ('["11:00", "12:00"], step: 30', '["22:30", "23:30"], step: 60',
         'weather.rain[0][1]: got "24:15"; allowed: "HH:MM" from 00:00 to 23:59'),
        ("one_of: [masonry, concrete]", "one_of: [masonry, concrete, brick, stone, 5]",
         "walls[0].told: got 5; allowed: text, not empty"),
        ("at_mm: 1000, off_mm: 6000", "at_mm: 2100, off_mm: 6000",
         "gas.at_mm: got 2100; allowed: on the wall, ≤ 2000"),
        ("every: 1000, first: {of: first}, width: 100, until: {of: long}",
         "every: 150, first: {of: first}, width: 100, until: {of: long}", "field_laps: got"),
        ("roll_mm: 8000", "roll_mm: 2000", "rolls: got strips for 2 sheets; allowed: for 3 or"),
        ("{of: long}", "{of: wet}", "walls[0].length_mm: got true; allowed: a whole number"),
        ("until: {of: long}}", "until: {of: told}}",
         'walls[0].field_laps.until: got "masonry"; allowed: a whole number'),
        ("first: {between: [250, 450]", "first: {between: [250, 900450]",
         "walls[0].field_laps.first: got 900"),
    ],
)  # fmt: skip
def test_what_only_drawing_shows_is_found_when_the_pack_is_read(old, new, complaint):
    found = complaints(old, new)
    assert any(complaint in said for said in found), found
    assert all("seed" in said or "end of a range" in said for said in found)


# ---- in the pack ----------------------------------------------------------------------------


@pytest.fixture
def pack(tmp_path):
    made = SmallPack(tmp_path)
    (tmp_path / "jobs").mkdir()
    english = JOB.replace(", fr: Un petit mur", "").replace(", fr: Habillez-le.", "")
    (tmp_path / "jobs" / "small-wall.yaml").write_text(english, "utf-8")
    return made


def another(pack, name: str, **changes: str) -> None:
    text = (pack.root / "jobs" / "small-wall.yaml").read_text("utf-8")
    for old, new in changes.items():
        assert f"{old}: " in text
        line = next(part for part in text.splitlines() if part.startswith(f"{old}: "))
        text = text.replace(line, f"{old}: {new}", 1)
    (pack.root / "jobs" / name).write_text(text, "utf-8")


def test_the_newest_version_is_drawn_and_the_older_stay(pack):
    another(pack, "small-wall-10.yaml", version="10")
    another(pack, "easy.yaml", id="easy", level="1")
    another(pack, "hard.yaml", id="a-hard-one", level="4")
    loaded = load_pack(pack.root)
    assert list(loaded.jobs) == ["easy", "small-wall", "a-hard-one"]
    assert loaded.job("small-wall").version == 10
    assert loaded.job("small-wall", 2) is loaded.every_job["small-wall", 2]
    with pytest.raises(InputError, match='job: got "smal"; allowed: one of easy, small-wall'):
        loaded.job("smal")
    with pytest.raises(InputError, match="job version: got 3; allowed: of small-wall: 10, 2"):
        loaded.job("small-wall", 3)


def test_a_pack_without_jobs_has_none(tmp_path):
    assert load_pack(SmallPack(tmp_path).root).jobs == {}


def test_a_job_is_part_of_what_a_pack_is_known_by(pack):
    before = load_pack(pack.root).digest
    another(pack, "small-wall.yaml", leave_by='"15:30"')
    assert load_pack(pack.root).digest != before


def test_jobs_and_families_are_refused_together(pack):
    pack.spoil("lessons/laps.yaml", "unit: laps", "unit: lips")
    another(pack, "small-wall.yaml", level="7")
    with pytest.raises(PackError) as refused:
        load_pack(pack.root)
    assert len(refused.value.problems) >= 2
    assert "jobs/small-wall.yaml:3: level: got 7" in str(refused.value)
    assert "there is no unit lips" in str(refused.value)


def test_a_version_stands_once(pack):
    another(pack, "twice.yaml")
    with pytest.raises(PackError, match=r"version 2 of small-wall stands in .*small-wall.yaml too"):
        load_pack(pack.root)


def test_a_job_speaks_the_languages_of_the_pack(pack):
    another(pack, "small-wall.yaml", title="{en: A wall, fr: Un mur}")
    with pytest.raises(PackError) as refused:
        load_pack(pack.root)
    assert 'the language "fr" is missing here' in str(refused.value)


def test_a_job_that_was_found_sound_is_not_drawn_again(monkeypatch):
    drawings = []
    monkeypatch.setattr(jobs_module, "read_job", lambda plain: drawings.append(plain))
    job = job_of(parse(JOB, "small-wall.yaml", sound=True), 102)
    assert job.id == "small-wall" and drawings == []


ODD = (
    None, 0, -1, 10**30, 0.5, True, "", "A", "25:00", [], {}, [1], [[1, 2]], [None],
    {"of": "long"}, {"of": 3}, {"if": "wet", "then": 1}, {"of": "first", "plus": 99_999},
    {"every": 1, "first": 0, "width": 1, "until": 60_000}, {"between": [1, 10**9]},
)  # fmt: skip


def ways(part, way=()):
    """The way to every value in a job."""
    items = part.items() if isinstance(part, dict) else enumerate(part)
    for key, inner in items:
        yield (*way, key)
        if isinstance(inner, dict | list):
            yield from ways(inner, (*way, key))


@pytest.mark.parametrize("seed", range(120))
def test_whatever_is_put_in_place_of_a_value_is_taken_or_refused_with_its_line(seed):
    chance = random.Random(seed)
    data = parse(JOB, "small-wall.yaml").value
    for way in chance.sample(list(ways(data)), 2):
        part = data
        with suppress(KeyError, IndexError, TypeError):  # the first change took the second away
            for step in way[:-1]:
                part = part[step]
            part[way[-1]] = chance.choice(ODD)
    try:
        job_of(parse(yaml.safe_dump(data, sort_keys=False), "small-wall.yaml"), 102).drawn(0, 102)
    except PackError as refused:
        for problem in refused.problems:
            assert problem.line > 0
            assert "allowed: " in problem.message or problem.message == "drawn and never used"


def test_reading_a_job_draws_a_handful_and_no_more(monkeypatch):
    seeds = []
    real = jobs_module.draw_job
    monkeypatch.setattr(
        jobs_module, "draw_job", lambda spec, seed, mm: seeds.append(seed) or real(spec, seed, mm)
    )
    spec()
    assert seeds == list(range(SEEDS_TRIED))
