"""Reading and checking the whole pack, beside PyYAML's C loader alone on the same files.

Every file is read anew each time, and nothing that was compiled before is kept. Three ways: files
never seen before, with a few scenarios of every mode drawn; the same without drawing; and files
that were found sound before by this very program, which is how a site starts. Run with
``pytest tests/benchmarks/test_pack_loading.py --benchmark-enable -s``.
"""

import statistics
import time

import pytest
import yaml

from trainer.engine import syntax
from trainer.pack import pack, rulebook
from trainer.services.figures import figure_flaws

ROUNDS = 11
FILES = [path for path in pack.SCENARIOS.rglob("*.yaml") if path.parent.name != "demo"]


def forgotten():
    for kept in (pack._load, pack._deep, rulebook._load, syntax.read):
        kept.cache_clear()


def loaded():
    forgotten()
    pack.load_pack()


def drawn_too():
    forgotten()
    pack.load_pack(figure_check=figure_flaws)


def read_only():
    for path in FILES:
        yaml.load(path.read_bytes(), Loader=yaml.CSafeLoader)


def seconds(work):
    began = time.process_time()
    work()
    return time.process_time() - began


@pytest.fixture
def memory(tmp_path, monkeypatch):
    """A memory of this test's own; empty, so that nothing was found sound before."""
    monkeypatch.setattr(pack, "_memories", [])
    return tmp_path


def beside_the_yaml_loader(report, work, rounds=ROUNDS):
    seconds(work), seconds(read_only)
    pairs = [(seconds(work), seconds(read_only)) for _ in range(rounds)]
    report(
        to_c_safe_loader=statistics.median(ours / theirs for ours, theirs in pairs),
        pack_ms=1e3 * statistics.median(ours for ours, _ in pairs),
    )


def test_a_pack_never_seen_before(report, memory):
    beside_the_yaml_loader(report, loaded)


def test_a_pack_never_seen_before_and_drawn(report, memory):
    beside_the_yaml_loader(report, drawn_too, rounds=3)


def test_a_pack_that_was_found_sound_before(report, memory):
    pack.remember_in(memory)
    drawn_too()
    beside_the_yaml_loader(report, drawn_too)


def test_asking_for_a_pack_that_is_loaded(report):
    pack.load_pack()
    report(microseconds=1e6 * statistics.median(seconds(pack.load_pack) for _ in range(500)))
