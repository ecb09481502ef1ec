"""My record; the list of people; one person's record."""

from __future__ import annotations

from flask import g, render_template, request
from flask_babel import gettext as _

from trainer.services import recordbook
from trainer.web.at_hand import at_hand
from trainer.web.record import blueprint


@blueprint.get("/record")
def mine() -> str:
    page = recordbook.my_record(*at_hand(), before=request.args.get("before"))
    return render_template("record/record.html", page=page, mine=True)


@blueprint.get("/people")
def people() -> str:
    """Everybody whose record the person may read, by crew. The services refuse the others."""
    text = request.args.get("text", "")[:80]
    found = recordbook.people_list(*at_hand(), text=text)
    heading = _("Crew") if g.person.role == "supervisor" else _("People")
    return render_template("record/people.html", people=found, text=text, heading=heading)


@blueprint.get("/people/<person_id>")
def person(person_id: str) -> str:
    page = recordbook.record_of(*at_hand(), person_id, before=request.args.get("before"))
    return render_template("record/record.html", page=page, mine=False)


@blueprint.get("/people/<person_id>/scenario/<attempt>")
def scenario(person_id: str, attempt: str) -> str:
    """One scenario as the worker answered it, to read."""
    whose, page = recordbook.scenario_of(*at_hand(), person_id, attempt)
    return render_template("record/scenario.html", page=page, whose=whose, person_id=person_id)
