"""Keeping and checking passwords; which are refused is in tests/published."""

import threading

import pytest

from trainer.services.passwords import LONGEST, PasswordProblem, Passwords, password_problem
from trainer.services.refusals import TooManyAtOnce


@pytest.fixture
def passwords():
    return Passwords(memory_kib=8, passes=1, lanes=1)


def test_kept_is_not_the_password_and_never_twice_the_same(passwords):
    kept, again = passwords.hash("quiet-ladder-97"), passwords.hash("quiet-ladder-97")
    assert kept.startswith("$argon2id$")
    assert "ladder" not in kept
    assert kept != again
    assert passwords.verify(kept, "quiet-ladder-97")


def test_nobodys_password_is_never_right(passwords):
    assert not passwords.verify(None, "nobody's password")
    assert not passwords.verify("not a hash", "quiet-ladder-97")


def test_unknown_names_cost_the_same_work(passwords, monkeypatch):
    checked = []
    matches = passwords._matches
    monkeypatch.setattr(passwords, "_matches", lambda *both: checked.append(both) or matches(*both))
    passwords.verify(None, "quiet-ladder-97")
    assert [kept.split("$")[3] for kept, _ in checked] == ["m=8,t=1,p=1"]


def test_another_cost_is_noticed(passwords):
    dearer = Passwords(memory_kib=16, passes=1, lanes=1)
    assert dearer.outdated(passwords.hash("quiet-ladder-97"))
    assert not passwords.outdated(passwords.hash("quiet-ladder-97"))


def test_accents_typed_in_two_ways_are_the_same_password(passwords):
    kept = passwords.hash("señal de seguridad")
    assert passwords.verify(kept, "sen\u0303al de seguridad")


def test_those_too_many_are_sent_away_at_once(monkeypatch):
    passwords = Passwords(memory_kib=8, passes=1, lanes=1, waiting=2)
    inside, go_on = threading.Barrier(2), threading.Event()
    monkeypatch.setattr(passwords, "_at_work", threading.BoundedSemaphore(2))
    monkeypatch.setattr(passwords, "_matches", lambda *_: (inside.wait(5), go_on.wait(5)))
    threads = [threading.Thread(target=passwords.verify, args=("x", "y")) for _ in range(2)]
    for thread in threads:
        thread.start()
    while passwords._admitted._value:
        pass
    with pytest.raises(TooManyAtOnce):
        passwords.verify("x", "y")
    go_on.set()
    for thread in threads:
        thread.join()
    assert passwords._admitted._value == 2


@pytest.mark.parametrize(
    ("password", "problem"),
    [
        ("x" * 15, PasswordProblem.COMMON),
        ("Qwertyuiop12345", PasswordProblem.COMMON),
        ("123456789012345", PasswordProblem.COMMON),
        ("!!!Password!!!!!!!", PasswordProblem.COMMON),
        ("Ana Ruiz Ana Ruiz", PasswordProblem.OWN_WORDS),
        ("mill-street-2026", PasswordProblem.OWN_WORDS),
        ("a" * (LONGEST + 1), PasswordProblem.LONG),
        ("", PasswordProblem.SHORT),
        ("ana ruiz walks to mill street", None),
    ],
)
def test_refused_words(password, problem):
    assert password_problem(password, ["Ana Ruiz", "ana", "Mill Street"]) == problem
