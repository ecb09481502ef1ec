"""The grid of roles and actions where no database is needed."""

import pytest

from trainer.services.permissions import GRID, Scope, may, require, scope
from trainer.services.person import SignedIn
from trainer.services.refusals import NotAllowed


def person(*roles: str) -> SignedIn:
    return SignedIn(7, "p", "Ana", None, "mm", "c", "auto", frozenset(roles), 1, 1, False)


def test_the_widest_of_several_roles_counts():
    assert scope(person("worker", "supervisor"), "scenario.view_others_history") == Scope.CREW
    assert scope(person("supervisor", "coordinator"), "scenario.view_others_history") == Scope.ALL


@pytest.mark.parametrize("action", sorted(GRID))
def test_nobody_without_a_role_may_do_anything(action):
    assert not may(person(), action)
    assert not may(person("foreman"), action)


def test_an_action_nobody_listed_is_never_allowed():
    with pytest.raises(KeyError):
        may(person("coordinator"), "impersonate")


def test_a_refusal_names_the_action_and_what_to_do():
    with pytest.raises(NotAllowed, match="Ask your coordinator") as refused:
        require(person("administrator"), "scenario.play")
    assert refused.value.action == "scenario.play"


@pytest.mark.parametrize(
    ("roles", "leading"),
    [
        (("worker", "supervisor"), "supervisor"),
        (("supervisor", "coordinator"), "coordinator"),
        (("worker",), "worker"),
        ((), ""),
    ],
)
def test_one_role_decides_the_menu(roles, leading):
    assert person(*roles).role == leading
