"""The drawings of scenarios: a telling and what has been answered make an SVG."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from trainer.drawing import draw
from trainer.engine.explain import Telling
from trainer.engine.expression import ExpressionError
from trainer.engine.flaws import Flaw, Path
from trainer.engine.scenario import Scenario
from trainer.engine.spec import Family
from trainer.errors import InputError
from trainer.services.speech import speaker


@dataclass(frozen=True)
class Put:
    """Where a worker put something: millimetres along the decision's axes."""

    at: tuple[float, ...]
    axes: str
    right: bool
    text: str
    moved: Mapping[str, Any]
    """What the drawing gained while it could be moved: there stands the axis that did not move."""

    def overlays(self, figure: Mapping[str, Any]) -> list[dict[str, Any]]:
        """A note at that place in the figure's own coordinates; none where it has no such place."""
        place = self._on_the_drawing(figure)
        note = {"type": "note", "at": place, "text": self.text, "ok": self.right}
        return [note] if place else []

    def _on_the_drawing(self, figure: Mapping[str, Any]) -> list[float] | None:
        given = dict(zip(self.axes, self.at, strict=False))
        if still := _movable_point(self.moved):
            return [given.get("x", still[0]), given.get("y", still[1])]
        if len(given) > 1:
            return [given["x"], given["y"]]
        x = given.get("x")
        if x is None:
            return None
        heights = {"parapet-section": 0, "timeline": 0, "lap-section": 0}
        heights["wall-elevation"] = figure.get("height_mm", 0)
        if figure["kind"] not in heights:
            return None
        return [-x if figure["kind"] == "parapet-section" else x, heights[figure["kind"]]]


def _movable_point(data: Any) -> list[float] | None:
    """Where the thing stands that could be moved across the drawing, if it has one point."""
    if isinstance(data, Mapping):
        if "at" in data and any(str(key).startswith("movable_") for key in data):
            at: list[float] = data["at"]
            return at
        data = list(data.values())
    if not isinstance(data, list):
        return None
    return next((found for part in data if (found := _movable_point(part))), None)


def figure_of(
    telling: Telling,
    *,
    answered: Collection[str] = (),
    waiting: str = "",
    live: bool = False,
    states: dict[str, str] | None = None,
    yours: Put | None = None,
    name: str = "figure",
) -> str:
    """The scenario's drawing as SVG; ``live`` parts can be tapped."""
    data = without_nothing(telling.figure(answered, waiting))
    data["id"] = name
    data["parts_live"] = live
    same_drawing = data["kind"] == telling.scenario.figure["kind"]
    data["states"] = states if states and same_drawing else {}
    if yours:
        data.setdefault("after", []).extend(yours.overlays(data))
    return draw(data, say=speaker(telling.language), length=telling.units.say_length)


def without_nothing(data: Any) -> Any:
    """Figure data without what holds nothing: a family says None for what is not there."""
    if isinstance(data, dict):
        return {key: without_nothing(part) for key, part in data.items() if part is not None}
    if isinstance(data, list):
        return [without_nothing(part) for part in data]
    return data


def figure_flaws(family: Family, scenario: Scenario) -> Iterator[Flaw]:
    """What cannot be drawn of a scenario: as it is asked, as each decision waits, as it answers."""
    telling = Telling(family, scenario)
    yield from _flaws(telling, ("figure",))
    for decision in scenario.decisions:
        if decision.id in scenario.live:
            yield from _flaws(telling, ("live", decision.id), waiting=decision.id)
        if decision.id in scenario.after:
            yield from _flaws(telling, ("after", decision.id), answered=(decision.id,))


def _flaws(telling: Telling, path: Path, **state: Any) -> Iterator[Flaw]:
    try:
        figure_of(telling, **state)
    except (InputError, ExpressionError) as error:
        yield Flaw(path, f"it cannot be drawn: {error.message.rstrip('.')}")
