"""Looking back on a finished installation."""

from __future__ import annotations

from flask import make_response, render_template
from werkzeug.wrappers import Response

from trainer.services.installations import debriefing
from trainer.web.at_hand import at_hand
from trainer.web.learn import blueprint

_LOOK_AGAIN_S = 3


@blueprint.get("/installation/<public_id>/debrief")
def installation_debrief(public_id: str) -> Response:
    """One's own, or that of somebody whose record one may read.

    While the best day is worked out the page comes again by itself, without any script.
    """
    page = debriefing.debrief(*at_hand(), public_id)
    shown = make_response(render_template("learn/installation_debrief.html", page=page))
    if page.waiting:
        shown.headers["Refresh"] = str(_LOOK_AGAIN_S)
    return shown
