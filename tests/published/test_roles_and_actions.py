"""Who may what, cell by cell, against the matrix in roles_actions_cases.json (its sources inside).

Every action is tried by every role on themselves, on somebody of a crew they lead, and on somebody
of another crew.
"""

import json
from pathlib import Path

import pytest

from trainer.services.permissions import GRID, require_for
from trainer.services.refusals import NotAllowed

MATRIX = json.loads(Path(__file__).with_name("roles_actions_cases.json").read_text("utf-8"))
CELLS = [
    pytest.param(row["action"], role, row["allow"][role], id=f"{row['action']}-{role}")
    for row in MATRIX["actions"]
    for role in MATRIX["roles"]
]
REACHED = {"no": set(), "own": {"self"}, "crew": {"self", "crew"}, "all": {"self", "crew", "other"}}


def test_the_grid_has_no_action_the_matrix_lacks():
    assert set(GRID) == {row["action"] for row in MATRIX["actions"]}


@pytest.mark.parametrize(("action", "role", "allowed"), CELLS)
def test_cell(action, role, allowed, parts, sign_in):
    actor = sign_in("actor", roles=(role,), crew="North")
    mate = sign_in("mate", crew="North")
    stranger = sign_in("stranger", crew="South")
    _lead(parts, actor.id)
    targets = {"self": actor.id, "crew": mate.id, "other": stranger.id}
    reached = {name for name, whose in targets.items() if _goes(parts, actor, action, whose)}
    assert reached == REACHED[allowed]


def _goes(parts, actor, action, whose) -> bool:
    with parts.database.reading() as session:
        try:
            require_for(session, parts.clock, actor, action, whose)
        except NotAllowed:
            return False
    return True


def _lead(parts, person_id) -> None:
    """Make every role lead its crew, so that only the role decides."""
    from sqlalchemy import update

    from trainer.records.tables import Membership

    with parts.database.writing() as session:
        session.execute(
            update(Membership).where(Membership.person_id == person_id).values(leads=True)
        )
