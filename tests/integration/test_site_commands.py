"""init, user and serve: from an empty folder to a page on a socket."""

from __future__ import annotations

import os
import re
import signal
import socket
import subprocess
import sys
import urllib.request

import pytest
from click.testing import CliRunner

from trainer.cli import main

PASSWORD = "gravel stops the bucket slide"


@pytest.fixture
def run(tmp_path):
    """run("init") → the finished command, on an instance folder of its own."""
    cheap = {"TRAINER_ARGON2_MEMORY_KIB": "8", "TRAINER_ARGON2_PASSES": "1"}
    environment = {"TRAINER_INSTANCE": str(tmp_path / "instance"), **cheap}

    def command(*arguments: str, typed: str | bytes | None = None):
        return CliRunner().invoke(main, arguments, input=typed, env=environment)

    command.environment = environment
    return command


def test_from_nothing_to_somebody_who_can_sign_in(run, tmp_path):
    made = run("init", "--site-name", "Mill Street", "--time-zone", "America/Toronto")
    assert made.exit_code == 0
    assert sorted(path.name for path in (tmp_path / "instance").iterdir() if "trainer" in path.name)
    added = run(
        "user", "add", "Ana Ruiz", "--sign-in", "ana", "--role", "supervisor", "--role", "worker",
        "--crew", "North", "--password-stdin", typed=PASSWORD + "\n",
    )  # fmt: skip
    assert (added.exit_code, added.output) == (0, "Ana Ruiz can sign in as ana.\n")
    assert _person(run, PASSWORD).roles == {"supervisor", "worker"}
    assert run("init").exit_code == 0
    assert _person(run, PASSWORD).name == "Ana Ruiz"


def test_a_password_can_be_typed_and_is_not_shown(run):
    run("init")
    typed = f"{PASSWORD}\n{PASSWORD}\n"
    added = run("user", "add", "Ana", "--sign-in", "ana", typed=typed)
    assert added.exit_code == 0
    assert PASSWORD not in added.output


def test_a_new_password_replaces_the_old(run):
    run("init")
    run("user", "add", "Ana", "--sign-in", "ana", "--password-stdin", typed=PASSWORD)
    set_anew = run("user", "password", "ANA", "--password-stdin", typed="seven dry rollers\r\n")
    assert set_anew.exit_code == 0
    assert _person(run, "seven dry rollers").must_change_password


@pytest.mark.parametrize(
    ("arguments", "typed", "words"),
    [
        (["add", "Ana", "--sign-in", "ana"], "short\n", "at least 15 characters"),
        (["add", "Ana", "--sign-in", "a b"], PASSWORD, 'sign-in: got "a b"'),
        (["add", " ", "--sign-in", "ana"], PASSWORD, 'name: got " "'),
        (["add", "Ana", "--sign-in", "ana"], b"\xff" * 20, "text in UTF-8"),
        (["password", "nobody"], PASSWORD, "no such sign-in name"),
    ],
)
def test_bad_input_is_one_plain_line(run, arguments, typed, words):
    run("init")
    done = run("user", *arguments, "--password-stdin", typed=typed)
    assert done.exit_code == 2
    assert words in done.stderr
    assert len(done.stderr.splitlines()) == 1


def test_without_a_database_the_command_says_what_to_run(run):
    done = run("user", "add", "Ana", "--sign-in", "ana", "--password-stdin", typed=PASSWORD)
    assert (done.exit_code, "Run: trainer init" in done.stderr) == (2, True)


@pytest.fixture
def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@pytest.fixture
def serving(run, free_port):
    """serving(**settings) → the address of a ``trainer serve``; it must stop without a trace."""
    servers = []

    def start(**settings: str) -> str:
        named = {f"TRAINER_{name.upper()}": value for name, value in settings.items()}
        server = subprocess.Popen(
            [sys.executable, "-m", "trainer", "serve", "--port", str(free_port)],
            env=os.environ | run.environment | named | {"PYTHONUNBUFFERED": "1"},
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
        )  # fmt: skip
        servers.append(server)
        return re.search(r"http://\S+", server.stdout.readline())[0]

    yield start
    for server in servers:
        server.send_signal(signal.SIGINT)
        _, wrong = server.communicate(timeout=10)
        assert "Traceback" not in wrong


def test_serve_makes_what_it_needs_and_answers(run, serving, free_port):
    with urllib.request.urlopen(f"{serving()}status", timeout=10) as answer:
        assert answer.read().strip() == b'{"status":"ok"}'
        assert "Server" not in answer.headers
    taken = run("serve", "--port", str(free_port))
    assert (taken.exit_code, "host and port" in taken.stderr) == (2, True)


def test_serve_believes_a_proxy_only_when_told_to(serving):
    address = serving(trusted_proxies="1")
    forwarded = urllib.request.Request(f"{address}sign-in", headers={"X-Forwarded-Proto": "https"})
    with urllib.request.urlopen(forwarded, timeout=10) as answer:
        assert "Secure" in answer.headers["Set-Cookie"]
    with urllib.request.urlopen(f"{address}sign-in", timeout=10) as answer:
        assert "Secure" not in answer.headers["Set-Cookie"]


def _person(run, password):
    from trainer.app import make_parts
    from trainer.config import Settings
    from trainer.services import sessions

    parts = make_parts(Settings.load(run.environment))
    return sessions.signed_in(parts, sessions.sign_in(parts, "ana", password))
