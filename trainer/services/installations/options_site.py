"""What can be done that belongs to no wall: people, rolls, flame, permit, things."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from trainer.installation.place import Spot
from trainer.services.installations.options_bench import Bench
from trainer.services.installations.options_fields import Entry, Option, choice, count, length
from trainer.services.installations.places import known_things
from trainer.services.installations.words import capital, wall_name
from trainer.services.pages import Row

_FILM_OFF_MM = 1500


def _crew(bench: Bench) -> list[Option]:
    found = [bench.option("watch"), bench.option("end watch")]
    return found + ([bench.option("lunch")] if bench.job.lunch else [])


def _rolls(bench: Bench) -> list[Option]:
    say, state, job = bench.voice.say, bench.state, bench.job
    left = {roll.id: job.strips_per_roll - state.cut_from.get(roll.id, 0) for roll in job.rolls}
    gives = [roll for roll in left if left[roll] > 0] or list(left)[:1]
    cut = (
        count("strips", say("How many strips"), max(1, min(_wanted(bench), left[gives[0]]))),
        choice("roll", say("From roll"), [_roll_row(bench, r, left[r]) for r in gives], gives[0]),
    )
    cold = sum(not strip.melted for strip in state.strips)
    melt = (count("strips", say("How many strips"), max(1, cold)),)
    return [
        bench.option("cut", {}, cut),
        bench.option("preheat", {}, melt),
        bench.option("check rolls"),
        bench.option("fetch warm rolls"),
    ]


def _roll_row(bench: Bench, roll: str, left: int) -> Row:
    gives = bench.voice.count("gives %(n)d strip", "gives %(n)d strips", left)
    return Row(roll, f"{roll} ({gives})")


def _wanted(bench: Bench) -> int:
    """Strips still wanted for what is set out and for the corners, beside those that lie ready."""
    state = bench.state
    due = sum(len(layout["laps"]) + 1 for layout in state.layouts.values())
    due += 2 * len(state.corners)
    return due - len(state.sheets) - len(state.strips)


def _torch(bench: Bench) -> list[Option]:
    say, state, gas = bench.voice.say, bench.state, bench.state.gas or bench.job.gas.spot
    lit = state.flames.get("torch")
    spot = lit.spot if lit else Spot(gas.wall, gas.at_mm, _FILM_OFF_MM)
    label = say("Carry the lit torch to a spot") if lit else say("Light the torch at a spot")
    found = [bench.option("light", {"tool": "torch"}, _spot(bench, spot), label=label)]
    if lit:
        found.append(bench.option("put out", {"tool": "torch"}))
    return [
        *found,
        bench.option("move gas", {}, _spot(bench, gas)),
        bench.option("change gas"),
    ]


def _spot(bench: Bench, spot: Spot) -> tuple[Entry, ...]:
    """Where on the roof: at which wall, how far along it, how far out."""
    say, voice = bench.voice.say, bench.voice
    walls = [Row(w.id, capital(wall_name(voice, w.id))) for w in bench.job.walls]
    return (
        choice("wall", say("At which wall"), walls, spot.wall),
        length(voice, "at", say("Along it from its left end"), spot.at_mm),
        length(voice, "off", say("Out from its face"), spot.off_mm),
    )


def _melter(bench: Bench) -> list[Option]:
    spot = bench.job.melter
    fixed = {"tool": "melter", "wall": spot.wall, "at": spot.at_mm, "off": spot.off_mm}
    if "melter" in bench.state.flames:
        return [bench.option("put out", {"tool": "melter"})]
    return [bench.option("light", fixed)]


def _permit(bench: Bench) -> list[Option]:
    return [bench.option("open permit"), bench.option("close permit")]


def _roof(bench: Bench) -> list[Option]:
    return [
        bench.option("last look"),
        bench.option("close cans"),
        bench.option("bag film"),
    ]


def _weather(bench: Bench) -> list[Option]:
    sheets = bench.state.sheets.values()
    walls = [wall.id for wall in bench.job.walls if any(sheet.on(wall.id) for sheet in sheets)]
    return [bench.option("seal", {"wall": wall}, id=f"seal-{wall}") for wall in walls]


def at_thing(bench: Bench, thing: str) -> list[Option]:
    """Something that can be covered, carried away or moved, if anybody knows of it."""
    if thing not in known_things(bench.job, bench.state):
        return []
    here = {"thing": thing}
    if thing in bench.state.extinguishers:
        return [
            bench.option("move extinguisher", here, _spot(bench, bench.state.extinguishers[thing]))
        ]
    found = [bench.option("cover", here)]
    if any(part.id == thing for part in bench.job.loose):
        found.insert(0, bench.option("clear", here))
    return found


AT: Mapping[str, Callable[[Bench], list[Option]]] = {
    "crew": _crew,
    "rolls": _rolls,
    "torch": _torch,
    "melter": _melter,
    "permit": _permit,
    "roof": _roof,
    "weather": _weather,
}
"""The places that belong to no wall, each with what can be done there."""
