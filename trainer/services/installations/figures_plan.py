"""The roof plan of an installation: walls, flames, gas, people, what burns and is known of."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from trainer.drawing import draw
from trainer.engine.measures import say_clock
from trainer.installation.job import Job
from trainer.installation.laps import all_laps
from trainer.installation.place import Point, Spot
from trainer.installation.state import Person, State
from trainer.services.installations.figures_found import Data, Say, known, part_chosen, with_cover
from trainer.services.installations.figures_people import Ground, stands
from trainer.services.installations.figures_wall import Length, corner_words, lap_state, slit_of

_ROUND_MM = 700
"""Roof shown round everything that stands on it."""

_ROOM = 342.0
"""User units between the margins of a plan as wide as a phone."""

_FILM_MM = 1100
"""How far before the wall the film lies that was pulled off a sheet."""

_MOST = 39
"""So many things that burn a plan can show."""

_CORNER_STATES = {"none": "open", "open": "open", "filled": "closed", "gusset": "welded"}


def plan_figure(
    job: Job,
    state: State,
    *,
    say: Say,
    length: Length,
    chosen: str = "",
    name: str = "plan",
    width: int = 358,
    names: Mapping[str, str] | None = None,
    live: bool = True,
) -> str:
    """The roof as it is known now, as SVG.

    ``width`` in user units, 280 to 800. Parts to tap: "wall-A", "corner-0"…, "gas", "melter",
    "ext-ID", "thing-ID", "opening-ID", "behind-ID", "person-ID". ``names`` replaces what a part is
    called aloud; ``chosen`` is the part or place with the ring.
    """
    plan = _Plan(job, state, say)
    own = {place: part for part, place in plan.places.items()}
    ringed = part_chosen(chosen, own)
    said = plan.said | {own[place]: text for place, text in (names or {}).items() if place in own}
    data = plan.data | {
        "id": name,
        "width": width,
        "parts_live": live,
        "places": plan.places,
        "said": said,
        "states": {own[ringed]: "chosen"} if ringed else {},
    }
    return draw(data, say, length)


class _Plan:
    """Gathers the drawing's data, and which of its parts stands for which place."""

    def __init__(self, job: Job, state: State, say: Say) -> None:
        self.job, self.state, self.say = job, state, say
        self.places: dict[str, str] = {}
        self.said: dict[str, str] = {}
        self.counted: dict[str, int] = {}
        tools, openings, fuel = list(self._tools()), list(self._openings()), list(self._fuel())
        walls = self._walls()
        lying = [tuple(part["at"]) for part in (*tools, *openings, *fuel)]
        self.ground = Ground(job, lying, _wide_mm([*walls["faces"], *lying]) / _ROOM)
        self.data: Data = {
            "kind": "roof-plan",
            "title": say("The roof from above"),
            "desc": f"{say('The roof from above')}, {say_clock(state.now)}.",
            "walls": [walls],
            "guardrails": list(self._rails()),
            "items": [*self._corners(), *self._laps()],
            "things": [*tools, *self._people()],
            "openings": openings,
            "combustibles": fuel,
            "grid_mm": 1000,
        }
        self.data["extent"] = _extent(self.data)

    def _known_as(self, part: str, place: str, text: str) -> None:
        self.places[part] = place
        self.said[part] = text

    def _walls(self) -> Data:
        job = self.job
        faces = [list(laid.origin) for laid in job.plan]
        faces.append(list(job.plan[-1].point(job.walls[-1].length_mm)))
        for i, wall in enumerate(job.walls):
            self._known_as(
                f"leg-0-{i}", f"wall-{wall.id}", self.say("Wall %(id)s") % {"id": wall.id}
            )
        return {
            "faces": faces,
            "thickness_mm": max(wall.top_mm for wall in job.walls),
            "roof_side": "right",
            "legs": [wall.id for wall in job.walls],
        }

    def _rails(self) -> Iterator[list[list[int]]]:
        for wall, laid in zip(self.job.walls, self.job.plan, strict=True):
            if wall.rail or wall.id in self.state.rails:
                out = -wall.top_mm * 4 // 5
                yield [list(laid.point(0, out)), list(laid.point(wall.length_mm, out))]

    def _corners(self) -> Iterator[Data]:
        for i in range(len(self.job.corners)):
            self._known_as(
                f"item-{i}", f"corner-{i}", corner_words(self.job, self.state, i, self.say)
            )
            at = self.job.plan[i + 1].origin
            yield {"at": list(at), "state": _CORNER_STATES[slit_of(self.state, i)]}

    def _laps(self) -> Iterator[Data]:
        """Laps as anybody sees them: rolled or not, welded; at most as many as a plan can hold."""
        room = 40 - len(self.job.corners)
        for _, lap in zip(range(room), all_laps(self.job, self.state), strict=False):
            at = list(self.job.placed(Spot(lap.wall, lap.middle_mm)))
            yield {"at": at, "state": lap_state(self.state, lap)}

    def _thing(self, kind: str, at: Point, label: str, place: str = "", **more: Any) -> Data:
        number = self.counted.get(kind, 0)
        self.counted[kind] = number + 1
        if place:
            self._known_as(f"{kind}-{number}", place, label)
        return {"kind": kind, "at": list(at), "label": label, **more}

    def _tools(self) -> Iterator[Data]:
        job, state, say = self.job, self.state, self.say
        if state.gas is not None:
            yield self._thing("cylinder", job.placed(state.gas), say("gas"), "gas")
        lit = state.flames.get("melter")
        where = lit.spot if lit else job.melter
        text = f"{say('melter')}, {say('lit')}" if lit else say("melter")
        yield self._thing("melter", job.placed(where), text, "melter")
        for name, spot in state.extinguishers.items():
            yield self._thing("extinguisher", job.placed(spot), say("extinguisher"), f"ext-{name}")
        if state.cans is not None and state.cans_at is not None:
            yield self._thing("can", job.placed(state.cans_at), say("open can"))
        torch = state.flames.get("torch")
        if torch is not None:
            laid = job.plan[job.wall_index(torch.spot.wall)]
            towards = list(laid.point(torch.spot.at_mm, torch.spot.off_mm - 1000))
            yield self._thing("torch", job.placed(torch.spot), say("torch, lit"), towards=towards)

    def _people(self) -> Iterator[Data]:
        if self.state.ended is not None:
            return
        for person in self.state.people.values():
            at = self.ground.place(stands(self.job, self.state, person, self.ground.back_mm))
            text = self.job.hand(person.id).name
            holds = {"holds": held} if (held := self._holds(person)) else {}
            yield self._thing("person", at, text, f"person-{person.id}", **holds)

    def _holds(self, person: Person) -> str:
        """A sign for what one sees in somebody's hands; a torch is drawn itself."""
        if person.watching:
            return "watch"
        laying = person.doing is not None and person.doing["do"] in ("lay", "lay corner")
        return "sheet" if laying else ""

    def _openings(self) -> Iterator[Data]:
        state, number = self.state, 0
        for hole in self.job.openings:
            if hole.id not in known(state, f"openings {hole.spot.wall}"):
                continue
            covered = hole.id in state.covered
            text = with_cover(self.say(hole.what), covered, self.say)
            self._known_as(f"opening-{number}", f"opening-{hole.id}", text)
            number += 1
            yield {
                "at": list(self.job.placed(hole.spot)),
                "label": self.say(hole.what),
                "covered": covered,
            }

    def _fuel(self) -> Iterator[Data]:
        """Loose things, film that lies about, and what was found in the parapet."""
        job, state = self.job, self.state
        found: list[tuple[str, str, Point]] = []
        for loose in job.loose:
            if loose.id not in state.cleared:
                found.append((f"thing-{loose.id}", loose.what, job.placed(loose.spot)))
        for wall in job.walls:
            for name, a, b, what in known(state, f"behind {wall.id}"):
                at = job.placed(Spot(wall.id, (a + b) // 2, -wall.top_mm // 2))
                found.append((f"behind-{name}", what, at))
        for number, (place, what, at) in enumerate(found[:_MOST]):
            covered = place.partition("-")[2] in state.covered
            text = with_cover(self.say(what), covered, self.say)
            self._known_as(f"combustible-{number}", place, text)
            yield {"kind": looks_like(what), "at": list(at), "label": text}
        if (film := _film_at(job, state)) is not None:
            yield {"kind": "screen", "at": list(film), "label": self.say("release film")}


_LOOKS = {
    "timber": ("timber", "wood", "board", "pallet"),
    "foam": ("foam", "insulation", "polystyrene"),
    "screen": ("plastic", "sheeting", "tarp", "screen", "film"),
}


def looks_like(what: str) -> str:
    """The symbol for something that burns; paper for whatever has none of its own."""
    said = what.lower()
    return next((kind for kind, words in _LOOKS.items() if any(w in said for w in words)), "paper")


def _film_at(job: Job, state: State) -> Point | None:
    """Before the sheet from which film was pulled last."""
    if state.film is None:
        return None
    spot = Spot(job.walls[0].id, job.walls[0].length_mm // 2, _FILM_MM)
    for sheet in state.sheets.values():
        if sheet.by == state.film:
            spot = Spot(sheet.wall, (sheet.from_mm + sheet.to_mm) // 2, _FILM_MM)
    return job.placed(spot)


def _wide_mm(points: Sequence[Sequence[int]]) -> int:
    """The longer side of what the plan shows."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return max(max(xs) - min(xs), max(ys) - min(ys)) + 2 * _ROUND_MM


def _extent(data: Data) -> list[list[float]]:
    """Everything that stands on the roof, and some roof round it."""
    points = [point for wall in data["walls"] for point in wall["faces"]]
    points += [point for rail in data["guardrails"] for point in rail]
    groups = ("things", "openings", "combustibles")
    points += [part["at"] for group in groups for part in data[group]]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return [
        [min(xs) - _ROUND_MM, min(ys) - _ROUND_MM],
        [max(xs) + _ROUND_MM, max(ys) + _ROUND_MM],
    ]
