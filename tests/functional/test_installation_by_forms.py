"""A whole day of a good foreman, every decision through the forms that the pages offer."""

from __future__ import annotations

from typing import Any

import pytest

from tests.functional.page_client import Reader, reader, sample_app, services
from tests.functional.sample_site import PASSWORD
from tests.functional.test_installation_pages import filled
from trainer.installation.laps import missing
from trainer.installation.play import play
from trainer.installation.run import FOR_ALL
from trainer.services import sessions
from trainer.services.installations import store
from trainer.services.installations.options import at_place
from trainer.services.installations.options_fields import Option
from trainer.services.installations.places import places
from trainer.services.installations.words import Voice

__all__ = ["reader", "sample_app", "services"]

VOICE = Voice()


@pytest.mark.parametrize("job_id", ["straight-wall", "inside-corner"])
def test_every_decision_of_a_good_day_can_be_made_with_the_forms(
    reader: Reader, sample_app, job_id: str
) -> None:
    parts = sample_app.extensions["trainer"]
    person = sessions.signed_in(parts, sessions.sign_in(parts, "rena", PASSWORD))
    opened = store.open_installation(parts, person, job_id, seed=5)
    standing = store.own(parts, person, opened)
    played = play(standing.job, standing.limits, "book")
    for state, decision in zip(played.states, played.decisions, strict=False):
        send(reader, f"/installation/{opened}", standing.job, state, decision)
    ended = store.own(parts, person, opened)
    assert [plain(each) for each in ended.decisions] == [plain(d) for d in played.decisions]
    assert ended.ended and not ended.state.findings and not missing(ended.job, ended.state)


def plain(decision: dict[str, Any]) -> dict[str, Any]:
    """A decision without what is as good as not there."""
    kept = {k: v for k, v in decision.items() if v is not None and v is not False and v != ""}
    return kept if decision["do"] != "wait" else {"do": "wait", "minutes": decision["minutes"]}


def send(reader: Reader, path: str, job: Any, state: Any, decision: dict[str, Any]) -> None:
    """Take a decision as a person would: at its place, in its form, changing what differs."""
    if decision["do"] == "leave":
        form = reader.read(f"{path}/leave").select_one("form[data-outbox]")
        fields: dict[str, Any] = {}
    elif decision["do"] in FOR_ALL:
        form = reader.read(path).select_one("input[name=minutes]").find_parent("form")
        fields = {"minutes": str(decision["minutes"])}
    else:
        place, option = found(job, state, decision)
        page = reader.read(f"{path}?place={place}")
        form = page.select_one(f'input[name=option][value="{option.id}"]').find_parent("form")
        fields = typed(option, decision)
    answered = reader.send(form, {**filled(form), **fields})
    assert answered.status_code == 303, (decision, answered.get_data(as_text=True)[:200])


def found(job: Any, state: Any, decision: dict[str, Any]) -> tuple[str, Option]:
    """A place and an option there that this decision can be made with."""
    for place in places(VOICE, job, state):
        for option in at_place(VOICE, job, state, place.id):
            if fits(option, decision):
                return place.id, option
    raise AssertionError(f"no form offers {decision}")


def fits(option: Option, decision: dict[str, Any]) -> bool:
    if option.act != decision["do"] or decision["who"] not in [row.id for row in option.who]:
        return False
    named, entries = dict(option.fixed), {entry.name: entry for entry in option.entries}
    for name, value in plain(decision).items():
        if name in named and named[name] != str(value):
            return False
        rows = entries[name].rows if name in entries else ()
        if rows and str(value) not in [row.id for row in rows]:
            return False
    asked = {name for name in decision if decision[name] is not None} - {"do", "who", "with"}
    return asked <= {*named, *entries} and ("through" in entries) <= ("through" in asked)


def typed(option: Option, decision: dict[str, Any]) -> dict[str, Any]:
    """What is changed in the form: lengths in millimetres, people, choices."""
    fields: dict[str, Any] = {"who": decision["who"]}
    if option.helpers:
        fields["with"] = decision.get("with") or ""
    for entry in option.entries:
        value = decision.get(entry.name)
        if entry.kind == "tick":
            fields[entry.name] = "true" if value else ""
        elif isinstance(value, (list, tuple)):
            fields[entry.name] = [str(each) for each in value]
        elif value is not None:
            fields[entry.name] = str(value)
    return fields
