"""Reading and checking the whole pack, beside PyYAML's C loader alone on the same files.

Everything is read anew each time: nothing that was compiled before is kept. Run with
``pytest tests/benchmarks/test_pack_loading.py --benchmark-enable -s``.
"""

import statistics
import time

import yaml

from trainer.engine import syntax
from trainer.pack import pack, rulebook

ROUNDS = 11
FILES = [path for path in pack.SCENARIOS.rglob("*.yaml") if path.parent.name != "demo"]


def loaded():
    pack._load.cache_clear()
    rulebook._load.cache_clear()
    syntax.read.cache_clear()
    pack.load_pack()


def read_only():
    for path in FILES:
        yaml.load(path.read_bytes(), Loader=yaml.CSafeLoader)


def seconds(work):
    began = time.process_time()
    work()
    return time.process_time() - began


def test_loading_the_pack(report):
    seconds(loaded), seconds(read_only)
    rounds = [(seconds(loaded), seconds(read_only)) for _ in range(ROUNDS)]
    report(
        to_c_safe_loader=statistics.median(ours / theirs for ours, theirs in rounds),
        pack_ms=1e3 * statistics.median(ours for ours, _ in rounds),
    )


def test_asking_for_a_pack_that_is_loaded(report):
    pack.load_pack()
    report(microseconds=1e6 * statistics.median(seconds(pack.load_pack) for _ in range(500)))
