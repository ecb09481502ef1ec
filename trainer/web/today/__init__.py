"""Before the work begins: jobs a supervisor makes from tomorrow's walls and hands to a crew."""

from flask import Blueprint

blueprint = Blueprint("today", __name__)

from trainer.web.today import jobs  # noqa: E402, F401
