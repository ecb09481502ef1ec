"""The worker's pages: the way in, and the three verbs Learn, Practise and Prove."""

from flask import Blueprint

blueprint = Blueprint("learn", __name__)

from trainer.web.learn import answers, debriefs, installations, lessons, proving, scenarios, scripts  # noqa: E402, F401
