"""What can be done at a place now: actions as full sentences, each with its few fields.

What nature does not allow is shown with its reason, a few of each place at most; what a rule
forbids is offered like anything else.
"""

from __future__ import annotations

from trainer.installation.job import Job
from trainer.installation.state import State
from trainer.services.installations import options_site, options_wall
from trainer.services.installations.options_bench import Bench
from trainer.services.installations.options_fields import Option
from trainer.services.installations.places import SITE, numbered
from trainer.services.installations.words import Voice

MOST_IMPOSSIBLE = 3


def at_place(voice: Voice, job: Job, state: State, place_id: str) -> list[Option]:
    """The options of a place, possible ones first; none for a place that is not there."""
    if state.ended is not None:
        return []
    found = _offered(Bench(voice, job, state), place_id)
    possible = [option for option in found if not option.cannot]
    impossible = [option for option in found if option.cannot]
    return possible + impossible[:MOST_IMPOSSIBLE]


def _offered(bench: Bench, place_id: str) -> list[Option]:
    if place_id in SITE:
        return options_site.AT[place_id](bench)
    if place_id.startswith("wall-"):
        return options_wall.at_wall(bench, place_id.removeprefix("wall-"))
    if stretch := numbered(place_id, "stretch"):
        return options_wall.at_stretch(bench, *stretch)
    if sheet := numbered(place_id, "sheet"):
        return options_wall.at_sheet(bench, *sheet)
    if lap := numbered(place_id, "lap"):
        return options_wall.at_lap(bench, *lap)
    if place_id.startswith("corner-"):
        return options_wall.at_corner(bench, int(place_id.removeprefix("corner-")))
    if place_id.startswith("thing-"):
        return options_site.at_thing(bench, place_id.removeprefix("thing-"))
    return []
