"""``trainer calc`` as a person or another program meets it: streams, lines, exit codes, help."""

import json
import subprocess
import sys

import pytest
from click.testing import CliRunner

from trainer.cli.calc import calc
from trainer.services import calculators as service

DAMP = {"air_c": 12, "rh_pct": 88, "surface_c": 12.5, "required_k": 3}
DAMP_ANSWER = {"dew_point_c": 10.07, "spread_k": 2.43, "required_k": 3, "ok": False}


def run(*arguments, given=None):
    content = json.dumps(given) if isinstance(given, dict) else given
    return CliRunner().invoke(calc, arguments, input=content, prog_name="trainer calc")


def refused(result, start):
    """Nothing on standard output, exactly one line on standard error, exit 2."""
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.startswith(start)
    assert result.stderr.count("\n") == 1
    assert result.stderr.endswith("\n")
    return True


def test_object_from_standard_input():
    for arguments in (["dew-point"], ["dew-point", "-"]):
        result = run(*arguments, given=DAMP)
        assert (result.exit_code, result.stderr) == (0, "")
        assert result.stdout.count("\n") == 1
        assert json.loads(result.stdout) == DAMP_ANSWER


def test_object_from_a_file_over_many_lines_with_or_without_a_mark(tmp_path):
    for mark in ("", "\ufeff"):
        file = tmp_path / "damp.json"
        file.write_text(mark + json.dumps(DAMP, indent=2), encoding="utf-8")
        assert json.loads(run("dew-point", str(file)).stdout) == DAMP_ANSWER


@pytest.mark.parametrize(
    ("given", "start"),
    [
        ('{"air_c": 12}', "rh_pct: missing; allowed: a number > 0 and ≤ 100 (%)"),
        ('{"air_c": "12", "rh_pct": 88}', 'air_c: got "12"; allowed: a number ≥ -45'),
        ('{"air_c": true, "rh_pct": 88}', "air_c: got true"),
        ('{"air_c": null, "rh_pct": 88}', "air_c: got null"),
        ('{"air_c": NaN, "rh_pct": 88}', "air_c: got NaN"),
        ('{"air_c": -Infinity, "rh_pct": 88}', "air_c: got -Infinity"),
        ('{"air_c": 1e400, "rh_pct": 88}', "air_c: got Infinity"),
        ('{"air_c": 1' + "0" * 6000 + ', "rh_pct": 88}', "air_c: got Infinity"),
        ('{"air_c": 12, "air_c": 12, "rh_pct": 88}', "air_c: got 12; allowed: each field once"),
        ('{"air_c": 12, "rh_pct": 88, "rh": 1}', "rh: got 1; allowed: no such field"),
        ('{"air_c": 12, "rh_pct": 88, "a\\nb": 1}', "a\\nb: got 1"),
        ('{"air_c": "two\\nlines", "rh_pct": 88}', 'air_c: got "two\\nlines"'),
        ('{"air_c": [[[[12]]]], "rh_pct": 88}', "air_c: got [[[[12]]]]"),
        ("[]", "input: got []; allowed: one JSON object"),
        ("12", "input: got 12"),
        ("NaN", "input: got NaN"),
        ("", 'input: got ""'),
        ("\n\n", "input: got "),
        ("{", "input: got "),
        ("air_c: 12", "input: got "),
        ('{"air_c": 12, "rh_pct": 88} {}', "input: got "),
        ("[" * 100_000, "input: got "),
        (b'{"air_c": 12, "rh_pct": 88, "\xff": 1}', 'input: got "\\\\xff"; allowed: UTF-8'),
        ('{"air_c": 12, "rh_pct": 88, "\\ud800": 1}', "\\ud800: got 1"),
    ],
    ids=lambda value: repr(value)[:30],
)
def test_bad_input_is_told_in_one_line(given, start):
    assert refused(run("dew-point", given=given), start)


def test_file_that_cannot_be_read_is_told_in_one_line(tmp_path):
    assert refused(run("dew-point", str(tmp_path / "none.json")), "FILE: got ")
    assert refused(run("dew-point", str(tmp_path)), "FILE: got ")
    assert refused(run("dew-point", "null\0byte"), "FILE: got ")
    assert refused(run("dew-point", str(tmp_path / "none.json"), "--lines"), "FILE: got ")
    (tmp_path / "latin").write_bytes('{"name": "Dachkante Süd"}'.encode("latin-1"))
    assert refused(run("dew-point", str(tmp_path / "latin")), "input: got ")


def test_unknown_calculator_is_told_in_one_line():
    assert refused(run("dewpoint", given=DAMP), 'name: got "dewpoint"; allowed: one of dew-point, ')


def test_lines_are_answered_one_by_one_in_order():
    good, bad = '{"air_c": 12, "rh_pct": 100}', '{"air_c": 12, "rh_pct": 101}'
    result = run("dew-point", "--lines", given=f"{good}\n{bad}\n\n{good}")
    answers = [json.loads(line) for line in result.stdout.splitlines()]
    assert answers[0] == answers[3] == {"dew_point_c": 12}
    assert answers[1]["error"].startswith("rh_pct: got 101; allowed: ")
    assert answers[2]["error"].startswith('input: got ""; allowed: one JSON object')
    assert len(answers) == 4
    assert (result.exit_code, result.stderr) == (1, "")


def test_lines_all_good_exit_well_and_no_lines_too():
    result = run("dew-point", "--lines", given='{"air_c": 12, "rh_pct": 100}\r\n' * 3)
    assert (result.exit_code, result.stdout) == (0, '{"dew_point_c": 12}\n' * 3)
    result = run("dew-point", "--lines", given="")
    assert (result.exit_code, result.stdout, result.stderr) == (0, "", "")


def test_lines_survive_any_bytes_between_line_feeds():
    line = json.dumps({"last_flame": "15:10", "rules": [{"name": "a\u2028b\x0b", "watch_min": 30}]})
    separators = line.replace("\\u2028", "\u2028").encode()
    result = run("fire-watch", "--lines", given=separators + b"\n\xff\n\x00\n" + separators)
    answers = [json.loads(line) for line in result.stdout_bytes.split(b"\n")[:-1]]
    assert [list(answer) == ["error"] for answer in answers] == [False, True, True, False]
    assert answers[3]["governing_watch"] == "a\u2028b\x0b"


def test_names_come_back_as_they_were_given():
    given = '{"last_flame": "15:10", "rules": [{"name": "Baustelle Süd \\ud800", "watch_min": 30}]}'
    result = run("fire-watch", given=given)
    assert "Baustelle Süd".encode() in result.stdout_bytes
    assert json.loads(result.stdout_bytes)["governing_watch"] == "Baustelle Süd \ud800"


def test_list_names_every_calculator_with_one_line():
    result = run("--list")
    names = [line.split()[0] for line in result.stdout.splitlines()]
    assert (result.exit_code, names) == (0, list(service.names_and_summaries()))


@pytest.mark.parametrize("name", service.names_and_summaries())
def test_help_tells_fields_limits_sources_and_a_worked_example(name):
    result = run(name, "--help")
    assert result.exit_code == 0
    words = " ".join(result.stdout.split())
    asked = service.calculator(name)
    for field in asked.fields:
        assert field.name in words
        assert _unwrapped(field.kind.describe()) in _unwrapped(words)
    for sentence in (*asked.rules, *asked.sources):
        assert _unwrapped(sentence) in _unwrapped(words)
    call, answer = _example(result.stdout)
    assert json.loads(run(name, given=call).stdout) == json.loads(answer)


def _unwrapped(text):
    """The text without the breaks that wrapping puts between words and after hyphens."""
    return "".join(text.split())


def _example(help_text):
    lines = [line.strip() for line in help_text.splitlines()]
    start = next(i for i, line in enumerate(lines) if line.startswith("echo '"))
    return lines[start].split("'")[1], lines[start + 1]


def test_rule_book_stands_in_for_the_spread():
    given = {"air_c": 12, "rh_pct": 100, "surface_c": 14.5}
    answer = service.calculate("dew-point", given, {"surface-above-dew-point": 2.5}.__getitem__)
    assert (answer["required_k"], answer["ok"]) == (2.5, True)
    answer = json.loads(run("dew-point", given=given).stdout)
    assert (answer["required_k"], answer["ok"]) == (3, False)
    assert service.rule_sentence("surface-above-dew-point") in " ".join(
        run("dew-point", "--help").stdout.split()
    )


def test_broken_rule_book_is_told_in_one_line_where_it_is_needed(monkeypatch, tmp_path):
    (tmp_path / "rulebook.yaml").write_text("version: [", encoding="utf-8")
    monkeypatch.setattr("trainer.pack.rulebook.DEFAULT", tmp_path / "rulebook.yaml")
    assert refused(run("dew-point", given={"air_c": 12, "rh_pct": 88, "surface_c": 13}), "")
    assert run("dew-point", given=DAMP).exit_code == 0
    assert "surface-above-dew-point of the rule book" in run("dew-point", "--help").stdout


@pytest.mark.parametrize("job", ["wall", "inside corner", "outside corner"])
def test_steps_of_a_job_are_listed_in_a_valid_order(job):
    result = run("sequence", "--steps", job)
    seen = set()
    for step in json.loads(result.stdout):
        assert set(step) == {"name", "needs", "guards"}
        assert set(step["needs"]) <= seen
        seen.add(step["name"])
    assert result.exit_code == 0
    assert "light the torch" in seen


def test_steps_of_an_unknown_job_are_refused():
    assert refused(run("sequence", "--steps", "roof"), 'job: got "roof"; allowed: ')


def test_command_starts_without_the_heavy_libraries():
    code = (
        "import sys; from trainer.cli.calc import calc;"
        "calc(['primer', '--help'], standalone_mode=False);"
        "heavy = {'flask', 'sqlalchemy', 'matplotlib', 'numpy', 'scipy', 'yaml', 'wtforms'};"
        "print(sorted(heavy & set(sys.modules)), file=sys.stderr)"
    )
    result = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert (result.returncode, result.stderr) == (0, "[]\n")
