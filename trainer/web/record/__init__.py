"""Records: one's own, and for those who may, other people's."""

from flask import Blueprint

blueprint = Blueprint("record", __name__)

from trainer.web.record import views  # noqa: E402, F401
