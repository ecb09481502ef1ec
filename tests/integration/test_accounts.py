"""Adding people, their passwords and how they like to read."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sqlalchemy import func, select

from trainer.errors import InputError
from trainer.records.queries import people
from trainer.records.tables import Crew, Membership, Person
from trainer.services import accounts, sessions
from trainer.services.accounts import PasswordRefused, Preferences
from trainer.services.refusals import Conflict, NotFound, SignInRefused

PASSWORD = "gravel stops the bucket slide"
ANOTHER = "seven dry rollers"


def _count(parts, table) -> int:
    with parts.database.reading() as session:
        return session.scalar(select(func.count()).select_from(table))


def test_a_supervisor_leads_the_crew_and_a_worker_works_in_it(parts, clock, add_person):
    add_person("Lee Moss", "lee", roles=("supervisor", "worker"), crew="North")
    add_person("Ana Ruiz", "ana", crew=" North ")
    with parts.database.reading() as session:
        leading = {m.person_id: m.leads for m in session.scalars(select(Membership))}
        assert people.roles(session, 1, clock.now()) == {"supervisor", "worker"}
    assert leading == {1: True, 2: False}
    assert _count(parts, Crew) == 1


@pytest.mark.parametrize(
    ("field", "change"),
    [
        ("name", {"name": "  "}),
        ("name", {"name": "x" * 121}),
        ("name", {"name": "Ana\nRuiz"}),
        ("name", {"name": "Ana\u202eRuiz"}),
        ("sign-in", {"sign_in_name": "a"}),
        ("sign-in", {"sign_in_name": "ana ruiz"}),
        ("sign-in", {"sign_in_name": "<script>"}),
        ("role", {"roles": ("worker", "foreman")}),
        ("crew", {"crew": "x" * 121}),
    ],
)
def test_a_field_that_cannot_be_taken_is_named(parts, add_person, field, change):
    with pytest.raises(InputError) as refused:
        add_person(**({"name": "Ana", "sign_in_name": "ana"} | change))
    assert refused.value.field == field
    assert _count(parts, Person) == 0


@pytest.mark.parametrize(
    "password", ["quiet-ladder-9", "password1234567", "ana ana ana ana ana", "mill street 2026"]
)
def test_a_weak_first_password_keeps_nothing(parts, add_person, password):
    with pytest.raises(PasswordRefused, match="do not belong together"):
        add_person("Ana", "ana", password=password, crew="North")
    assert (_count(parts, Person), _count(parts, Crew)) == (0, 0)


def test_a_sign_in_name_is_given_once(parts, add_person):
    add_person("Ana Ruiz", "ana")
    with pytest.raises(Conflict, match="in use"):
        add_person("Ana Reyes", "ANA")
    assert _count(parts, Person) == 1


def test_changing_the_password_ends_the_other_sessions(parts, add_person):
    add_person("Ana", "ana", must_change_password=True)
    here, there = (sessions.sign_in(parts, "ana", PASSWORD) for _ in range(2))
    ana = sessions.signed_in(parts, here)
    assert ana.must_change_password
    accounts.change_password(parts, ana, PASSWORD, ANOTHER)
    assert not sessions.signed_in(parts, here).must_change_password
    assert sessions.signed_in(parts, there) is None
    assert sessions.sign_in(parts, "ana", ANOTHER)
    with pytest.raises(SignInRefused):
        sessions.sign_in(parts, "ana", PASSWORD)


def test_changing_needs_the_old_password_and_a_good_new_one(parts, sign_in):
    ana = sign_in("ana")
    with pytest.raises(SignInRefused):
        accounts.change_password(parts, ana, "not the password", ANOTHER)
    with pytest.raises(PasswordRefused):
        accounts.change_password(parts, ana, PASSWORD, "short")
    assert sessions.sign_in(parts, "ana", PASSWORD)


def test_a_demonstration_account_keeps_its_password(parts, sign_in):
    with pytest.raises(Conflict):
        accounts.change_password(parts, sign_in("ana", demo=True), PASSWORD, ANOTHER)


def test_setting_a_password_needs_somebody_to_have_it(parts):
    with pytest.raises(NotFound, match="sign-in name"):
        accounts.set_password(parts, "nobody", PASSWORD)


def test_preferences_are_kept(parts, sign_in):
    accounts.set_preferences(parts, sign_in("ana"), Preferences("es", "in", "f", "dark"))
    ana = sign_in("ana")
    assert (ana.language, ana.length_unit, ana.temperature_unit, ana.ground) == (
        "es", "in", "f", "dark",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("length_unit", "cubits"),
        ("temperature_unit", "K"),
        ("ground", "<b>"),
        ("language", "../../x"),
    ],
)
def test_preferences_that_are_not_offered_are_refused(parts, sign_in, field, value):
    offered = Preferences("en", "mm", "c", "auto")
    with pytest.raises(InputError) as refused:
        accounts.set_preferences(parts, sign_in("ana"), replace(offered, **{field: value}))
    assert refused.value.field == field


def test_demo_accounts_are_listed_in_a_demonstration_only(parts, add_person):
    add_person("Ana", "ana", demo=True, roles=("worker", "supervisor"))
    add_person("Ben", "ben")
    assert accounts.demo_accounts(parts) == ()
    shown = accounts.demo_accounts(replace(parts, demo=True))
    assert shown == (accounts.DemoAccount("Ana", "ana", "supervisor"),)
