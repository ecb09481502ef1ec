"""Signing in: sessions that end, tries that run out, and names nobody has."""

from __future__ import annotations

from datetime import timedelta

import pytest
from sqlalchemy import func, select, update

from trainer.records.tables import Account, SignedInSession, SignInFailure
from trainer.services import accounts, sessions
from trainer.services.passwords import Passwords
from trainer.services.refusals import SignInRefused

PASSWORD = "gravel stops the bucket slide"
MINUTE = timedelta(minutes=1)


def _fail(parts, name="ana", times=1) -> list[SignInRefused]:
    refusals = []
    for _ in range(times):
        with pytest.raises(SignInRefused) as refused:
            sessions.sign_in(parts, name, "not the password")
        refusals.append(refused.value)
    return refusals


@pytest.fixture
def token(parts, add_person):
    add_person("Ana Ruiz", "ana", roles=("worker", "supervisor"), crew="North")
    return sessions.sign_in(parts, "ana", PASSWORD)


def test_the_person_is_known_by_the_token(parts, token):
    ana = sessions.signed_in(parts, token)
    assert (ana.name, ana.roles, ana.length_unit) == ("Ana Ruiz", {"worker", "supervisor"}, "mm")


@pytest.mark.parametrize("name", ["ANA", " ana ", "Ａｎａ"])
def test_names_are_read_generously(parts, token, name):
    assert sessions.sign_in(parts, name, PASSWORD)


@pytest.mark.parametrize("password", ["", PASSWORD.upper(), f" {PASSWORD}", PASSWORD[:-1]])
def test_passwords_are_read_to_the_letter(parts, token, password):
    with pytest.raises(SignInRefused):
        sessions.sign_in(parts, "ana", password)


def test_the_records_hold_no_token(parts, token):
    with parts.database.reading() as session:
        assert session.scalar(select(SignedInSession.token_digest)) != token


@pytest.mark.parametrize("wrong", ["", "x", "' OR 1=1 --", "\ud800", "a" * 5000])
def test_other_tokens_open_nothing(parts, token, wrong):
    assert sessions.signed_in(parts, wrong) is None


def test_signing_out_ends_this_session_only(parts, token):
    other = sessions.sign_in(parts, "ana", PASSWORD)
    sessions.sign_out(parts, token)
    assert sessions.signed_in(parts, token) is None
    assert sessions.signed_in(parts, other)
    sessions.sign_out(parts, token)
    sessions.sign_out(parts, "unknown")


def test_a_session_ends_when_it_is_not_used(parts, clock, token):
    clock.forward(parts.session_limits.idle - MINUTE)
    assert sessions.signed_in(parts, token)
    clock.forward(parts.session_limits.idle - MINUTE)
    assert sessions.signed_in(parts, token)
    clock.forward(parts.session_limits.idle + MINUTE)
    assert sessions.signed_in(parts, token) is None


def test_a_session_ends_at_the_latest_however_much_it_is_used(parts, clock, token):
    end = clock.now() + parts.session_limits.longest
    while clock.now() < end - timedelta(hours=6):
        assert sessions.signed_in(parts, token)
        clock.forward(timedelta(hours=6))
    clock.forward(timedelta(hours=6))
    assert sessions.signed_in(parts, token) is None


def test_being_seen_is_written_at_most_every_five_minutes(parts, clock, token):
    def last_seen():
        with parts.database.reading() as session:
            return session.scalar(select(SignedInSession.last_seen_at))

    opened = last_seen()
    clock.forward(5 * MINUTE)
    sessions.signed_in(parts, token)
    assert last_seen() == opened
    clock.forward(timedelta(seconds=1))
    sessions.signed_in(parts, token)
    assert last_seen() == clock.now()


def test_a_disabled_account_is_out_at_once_and_cannot_come_back(parts, clock, token):
    with parts.database.writing() as session:
        session.execute(update(Account).values(disabled_at=clock.now()))
    assert sessions.signed_in(parts, token) is None
    assert _fail(parts)[0].until is None
    with pytest.raises(SignInRefused):
        sessions.sign_in(parts, "ana", PASSWORD)


@pytest.mark.parametrize("name", ["ana", "nobody-has-this-name"])
def test_wrong_tries_make_one_wait_longer_and_longer(parts, clock, token, name):
    free = _fail(parts, name, times=4)
    assert [refusal.until for refusal in free] == [None] * 4
    waits = []
    for _ in range(8):
        until = _fail(parts, name)[0].until
        waits.append((until - clock.now()).total_seconds())
        clock.forward(until - clock.now())
    assert waits == [30, 60, 120, 240, 480, 900, 900, 900]


def test_no_try_counts_while_one_must_wait(parts, clock, token):
    _fail(parts, times=5)
    with pytest.raises(SignInRefused) as refused:
        sessions.sign_in(parts, "ana", PASSWORD)
    assert refused.value.until == clock.now() + timedelta(seconds=30)
    clock.forward(timedelta(seconds=30))
    assert sessions.sign_in(parts, "ana", PASSWORD)
    assert [refusal.until for refusal in _fail(parts, times=4)] == [None] * 4


@pytest.mark.parametrize("name", ["ana", "nobody-has-this-name"])
def test_after_a_hundred_wrong_tries_only_a_new_password_helps(parts, clock, token, name):
    with parts.database.writing() as session:
        session.add(
            SignInFailure(name_digest=sessions._digest(name), count=99, last_at=clock.now())
        )
    assert _fail(parts, name)[0].blocked
    clock.forward(timedelta(days=400))
    assert _fail(parts, name)[0].blocked
    if name == "ana":
        accounts.set_password(parts, "ana", "seven dry rollers")
        assert sessions.sign_in(parts, "ana", "seven dry rollers")


def test_tries_at_names_nobody_has_are_forgotten_and_others_are_not(parts, clock, token):
    _fail(parts, "ana")
    _fail(parts, "nobody")
    clock.forward(timedelta(days=2))
    _fail(parts, "somebody else")
    with parts.database.reading() as session:
        kept = session.scalars(select(SignInFailure.name_digest)).all()
    assert set(kept) == {sessions._digest("ana"), sessions._digest("somebody else")}


def test_the_same_work_is_done_for_a_name_nobody_has(parts, token, monkeypatch):
    checked = []
    verify = Passwords.verify
    monkeypatch.setattr(
        Passwords, "verify", lambda self, *both: checked.append(both[0]) or verify(self, *both)
    )
    _fail(parts, "ana")
    _fail(parts, "nobody")
    assert [kept is None for kept in checked] == [False, True]


def test_a_password_kept_at_another_cost_is_kept_anew(parts, token):
    with parts.database.writing() as session:
        cheap = Passwords(memory_kib=16, passes=1, lanes=1).hash(PASSWORD)
        session.execute(update(Account).values(password_hash=cheap))
    assert sessions.sign_in(parts, "ana", PASSWORD)
    with parts.database.reading() as session:
        assert "m=8,t=1,p=1" in session.scalar(select(Account.password_hash))


def test_long_ended_sessions_are_forgotten(parts, clock, token):
    clock.forward(parts.session_limits.longest + timedelta(days=31))
    for _ in range(sessions._CLEAR_EVERY - 1):
        sessions.sign_in(parts, "ana", PASSWORD)
    with parts.database.reading() as session:
        kept = session.scalar(select(func.count()).select_from(SignedInSession))
    assert kept == sessions._CLEAR_EVERY - 1


def test_confirming_counts_wrong_tries_like_signing_in(parts, clock, token):
    ana = sessions.signed_in(parts, token)
    sessions.confirm(parts, ana, PASSWORD)
    for _ in range(5):
        with pytest.raises(SignInRefused):
            sessions.confirm(parts, ana, "not the password")
    with pytest.raises(SignInRefused) as refused:
        sessions.sign_in(parts, "ana", PASSWORD)
    assert refused.value.until
