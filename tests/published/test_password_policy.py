"""Passwords against the published rules: NIST SP 800-63B-4, 3.1.1.2 and OWASP ASVS 5.0 chapter 6.

Each case names its clause; the file says which cases are left out and why.
"""

import json
from pathlib import Path

import pytest

from trainer.services.passwords import Passwords, password_problem

CASES = json.loads(Path(__file__).with_name("password_policy_cases.json").read_text("utf-8"))[
    "cases"
]


def named(phase: str | None):
    chosen = [case for case in CASES if case["context"].get("phase") == phase]
    return pytest.mark.parametrize("case", chosen, ids=[case["name"] for case in chosen])


@named(phase=None)
def test_choosing(case):
    words = [case["context"]["username"], *case["context"]["org_words"]]
    refused = password_problem(case["password"], words) is not None
    assert refused == (case["expect"] == "reject"), case["why"]


@named(phase="login")
def test_signing_in(case):
    passwords = Passwords(memory_kib=8, passes=1, lanes=1)
    kept = passwords.hash(case["context"].get("stored", case["password"]))
    assert passwords.verify(kept, case["password"]) == (case["expect"] == "accept"), case["why"]
