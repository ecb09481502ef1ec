"""The texts of every action: as an offer, while somebody does it, once it is done.

What stands between %( and ) is named by :mod:`words_decisions`, from the decision itself.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import NamedTuple

from trainer.services.speech import speaker

_Say = Callable[[str], str]


class Told(NamedTuple):
    """An action three times: as an offer, while somebody does it, and once it is done."""

    offer: str
    doing: str
    done: str


@lru_cache(maxsize=8)
def told(language: str) -> dict[str, Told]:
    """Every action's three texts. Offers name no person and none of what is still to fill in."""
    say = speaker(language)
    return {**_finding_out(say), **_making_ready(say), **_sheets(say), **_flame(say), **_site(say)}


def _finding_out(say: _Say) -> dict[str, Told]:
    return {
        "look": Told(
            say("look behind and below %(wall)s"),
            say("%(who)s looks behind and below %(wall)s"),
            say("%(who)s has looked behind and below %(wall)s"),
        ),
        "probe": Told(
            say("probe %(wall)s: its moisture, and whether its laps hold"),
            say("%(who)s probes %(wall)s"),
            say("%(who)s has probed %(wall)s"),
        ),
        "measure": Told(
            say("measure at %(wall)s: air, surface, laps"),
            say("%(who)s measures at %(wall)s"),
            say("%(who)s has measured at %(wall)s"),
        ),
        "touch": Told(
            say("touch %(wall)s with a finger"),
            say("%(who)s touches %(wall)s at %(at)s"),
            say("%(who)s has touched %(wall)s at %(at)s"),
        ),
        "ask": Told(
            say("ask what %(wall)s is made of"),
            say("%(who)s asks what %(wall)s is made of"),
            say("%(who)s has asked what %(wall)s is made of"),
        ),
        "check rolls": Told(
            say("see whether the rolls are cold"),
            say("%(who)s checks the rolls"),
            say("%(who)s has checked the rolls"),
        ),
        "last look": Told(
            say("walk round for the last look: no smoke, nothing warm"),
            say("%(who)s walks round for the last look"),
            say("%(who)s has walked round for the last look"),
        ),
    }


def _making_ready(say: _Say) -> dict[str, Told]:
    return {
        "prime": Told(
            say("prime %(wall)s from here to there"),
            say("%(who)s primes %(wall)s, %(stretch)s"),
            say("%(who)s has primed %(wall)s, %(stretch)s"),
        ),
        "dry": Told(
            say("dry %(wall)s from here to there"),
            say("%(who)s dries %(wall)s, %(stretch)s"),
            say("%(who)s has dried %(wall)s, %(stretch)s"),
        ),
        "snap": Told(
            say("snap the line for the lap onto the field at %(wall)s"),
            say("%(who)s snaps the line %(distance)s from %(wall)s"),
            say("%(who)s has snapped the line %(distance)s from %(wall)s"),
        ),
        "set out": Told(
            say("set out the sheets of %(wall)s"),
            say("%(who)s sets out %(wall)s: %(marks)s"),
            say("%(who)s has set out %(wall)s: %(marks)s"),
        ),
        "cut": Told(
            say("cut strips; they lie and relax"),
            say("%(who)s cuts %(strips)s from roll %(roll)s"),
            say("%(who)s has cut %(strips)s from roll %(roll)s"),
        ),
        "cover": Told(
            say("cover %(thing)s so that no spark gets at it"),
            say("%(who)s covers %(thing)s"),
            say("%(who)s has covered %(thing)s"),
        ),
        "clear": Told(
            say("carry %(thing)s away"),
            say("%(who)s carries %(thing)s away"),
            say("%(who)s has carried %(thing)s away"),
        ),
        "rail": Told(
            say("put up edge protection at %(wall)s"),
            say("%(who)s puts up edge protection at %(wall)s"),
            say("%(who)s has put up edge protection at %(wall)s"),
        ),
        "close cans": Told(
            say("close the primer cans"),
            say("%(who)s closes the primer cans"),
            say("%(who)s has closed the primer cans"),
        ),
        "bag film": Told(
            say("bag the release film"),
            say("%(who)s bags the release film"),
            say("%(who)s has bagged the release film"),
        ),
        "fetch warm rolls": Told(
            say("fetch rolls that were kept warm"),
            say("%(who)s fetches warm rolls"),
            say("%(who)s has brought warm rolls"),
        ),
    }


def _sheets(say: _Say) -> dict[str, Told]:
    return {
        "lay": Told(
            say("lay %(sheets)s"),
            say("%(who)s lays %(sheets)s"),
            say("%(who)s has laid %(sheets)s"),
        ),
        "lay corner": Told(
            say("lay %(corner_sheet)s"),
            say("%(who)s lays %(corner_sheet)s"),
            say("%(who)s has laid %(corner_sheet)s"),
        ),
        "roll": Told(
            say("roll %(sheets)s"),
            say("%(who)s rolls %(sheets)s"),
            say("%(who)s has rolled %(sheets)s"),
        ),
        "roll corner": Told(
            say("roll %(corner_sheet)s"),
            say("%(who)s rolls %(corner_sheet)s"),
            say("%(who)s has rolled %(corner_sheet)s"),
        ),
        "trim": Told(
            say("cut the first sheet of %(corner)s at 45°"),
            say("%(who)s cuts the first sheet of %(corner)s at 45°"),
            say("%(who)s has cut the first sheet of %(corner)s at 45°"),
        ),
        "fill": Told(
            say("fill %(corner)s with hot bitumen"),
            say("%(who)s fills %(corner)s with hot bitumen"),
            say("%(who)s has filled %(corner)s with hot bitumen"),
        ),
        "strip": Told(
            say("strip %(sheets)s off again"),
            say("%(who)s strips %(sheets)s off"),
            say("%(who)s has stripped %(sheets)s off"),
        ),
        "strip corner": Told(
            say("strip %(corner_sheet)s off again"),
            say("%(who)s strips %(corner_sheet)s off"),
            say("%(who)s has stripped %(corner_sheet)s off"),
        ),
        "seal": Told(
            say("seal the open edges of %(wall)s for the night or the rain"),
            say("%(who)s seals the open edges of %(wall)s"),
            say("%(who)s has sealed the open edges of %(wall)s"),
        ),
    }


def _flame(say: _Say) -> dict[str, Told]:
    return {
        "open permit": Told(
            say("open the hot-work permit"),
            say("%(who)s opens the permit"),
            say("%(who)s has opened the permit"),
        ),
        "light": Told(
            say("light %(tool)s"),
            say("%(who)s lights %(tool)s at %(spot)s"),
            say("%(who)s has lit %(tool)s at %(spot)s"),
        ),
        "preheat": Told(
            say("melt the film off strips with the torch"),
            say("%(who)s melts the film off %(strips)s"),
            say("%(who)s has melted the film off %(strips)s"),
        ),
        "weld": Told(
            say("weld %(laps)s"), say("%(who)s welds %(laps)s"), say("%(who)s has welded %(laps)s")
        ),
        "gusset": Told(
            say("set the gusset in %(corner)s"),
            say("%(who)s sets the gusset in %(corner)s, %(reach)s past it"),
            say("%(who)s has set the gusset in %(corner)s, %(reach)s past it"),
        ),
        "put out": Told(
            say("put %(tool)s out"),
            say("%(who)s puts %(tool)s out"),
            say("%(who)s has put %(tool)s out"),
        ),
        "move gas": Told(
            say("move the gas cylinder"),
            say("%(who)s moves the gas to %(spot)s"),
            say("%(who)s has moved the gas to %(spot)s"),
        ),
        "change gas": Told(
            say("change the gas cylinder"),
            say("%(who)s changes the gas cylinder"),
            say("%(who)s has changed the gas cylinder"),
        ),
        "move extinguisher": Told(
            say("move %(thing)s"),
            say("%(who)s moves %(thing)s to %(spot)s"),
            say("%(who)s has moved %(thing)s to %(spot)s"),
        ),
        "close permit": Told(
            say("close the hot-work permit"),
            say("%(who)s closes the permit"),
            say("%(who)s has closed the permit"),
        ),
    }


def _site(say: _Say) -> dict[str, Told]:
    return {
        "watch": Told(
            say("stand on fire watch"),
            say("%(who)s goes on fire watch"),
            say("%(who)s is on fire watch"),
        ),
        "end watch": Told(
            say("end the fire watch"),
            say("%(who)s leaves the fire watch"),
            say("%(who)s has left the fire watch"),
        ),
        "lunch": Told(say("have lunch"), say("%(who)s has lunch"), say("%(who)s has eaten")),
        "wait for the all-clear": Told(
            say("wait for the all-clear"),
            say("%(who)s waits for the all-clear"),
            say("%(who)s has the all-clear"),
        ),
    }
