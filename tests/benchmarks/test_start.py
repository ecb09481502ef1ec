"""How long the app and a command take to start, beside the libraries they cannot do without.

Run with ``pytest tests/benchmarks/test_start.py --benchmark-enable -s``.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import time

import pytest

LIBRARIES = "import flask, sqlalchemy.orm, flask_wtf, argon2"
APP = "import trainer.app\nfor module in trainer.app.BLUEPRINTS: __import__(module)"
COMMAND = "import trainer.cli\ntry: trainer.cli.main(['calc', '--list'])\nexcept SystemExit: pass"


@pytest.mark.parametrize(("what", "code"), [("app", APP), ("trainer calc", COMMAND)])
def test_starting_beside_its_libraries(report, what, code):
    pairs = [(_started(LIBRARIES), _started(code)) for _ in range(7)]
    ratio = statistics.median(ours / libraries for libraries, ours in pairs)
    print(f"  {what}:", end="")
    report(to_libraries=ratio, libraries_ms=statistics.median(p[0] for p in pairs) * 1000)


def _started(code: str) -> float:
    began = time.perf_counter()
    subprocess.run([sys.executable, "-c", code], check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - began
