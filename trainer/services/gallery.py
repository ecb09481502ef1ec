"""The gallery: every cell drawn with a few seeds, on light and dark ground, as static pages.

For authors, who look through two hundred drawings faster than they read two hundred tables. The
pages hold the answers; they have no scripts and load nothing.
"""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from statistics import median
from typing import Any

from jinja2 import Environment, FileSystemLoader, select_autoescape

from trainer.engine.explain import NOTHING, Telling
from trainer.services import catalogue
from trainer.services.figures import figure_of
from trainer.services.scenarios import Library, library

STYLES = ("drawing.css", "gallery.css")
_TEMPLATES = Path(__file__).parent / "templates"
_NAME = "GROUND"
"""Stands in the ids of a drawing until it is put on its ground: drawn once for both."""


@dataclass(frozen=True)
class State:
    """The drawing as it stands at one moment, on both grounds."""

    when: str
    light: str
    dark: str
    seconds: float


@dataclass(frozen=True)
class DrawnPage:
    """One scenario: its facts and its drawings."""

    seed: int
    title: str
    margin: str
    situation: tuple[str, ...]
    decisions: tuple[dict[str, str], ...]
    states: tuple[State, ...]


@dataclass(frozen=True)
class CellPage:
    """One family in one fault mode, with a few seeds."""

    family: str
    mode: str
    drawn: tuple[DrawnPage, ...]

    @property
    def seconds(self) -> list[float]:
        """How long each of its drawings took."""
        return [state.seconds for drawn in self.drawn for state in drawn.states]


@dataclass(frozen=True)
class Sheet:
    """One unit on a page of its own."""

    unit: str
    name: str
    cells: tuple[CellPage, ...]

    @property
    def families(self) -> int:
        return len({cell.family for cell in self.cells})


@dataclass(frozen=True)
class Gallery:
    """What was written: pages, how many drawings, how long one took, and where it took longest."""

    index: Path
    cells: int
    figures: int
    median_ms: float
    slowest: str
    slowest_ms: float


def write_gallery(out: Path, static: Path, only: str = "", seeds: int = 3) -> Gallery:
    """Writes the pages into the folder ``out``, made where it is missing.

    ``static`` is the folder of the program's style sheets; ``only`` names one family; ``seeds``
    from 1 up. Raises InputError for an unknown family, UnsoundScenario for a cell that is not
    sound, OSError where nothing can be written.
    """
    shelf = library()
    styles = "\n".join((static / "css" / name).read_text("utf-8") for name in STYLES)
    out.mkdir(parents=True, exist_ok=True)
    summaries, times = [], dict[str, list[float]]()
    for sheet in _sheets(shelf, only, seeds):
        _write(out / f"{sheet.unit}.html", "gallery-unit.html", styles=styles, sheet=sheet)
        times |= {f"{cell.family}, {cell.mode}": cell.seconds for cell in sheet.cells}
        summaries.append(sheet)
    index = out / "index.html"
    _write(index, "gallery-index.html", styles=styles, sheets=summaries, seeds=seeds)
    return _told(index, times)


def _told(index: Path, times: dict[str, list[float]]) -> Gallery:
    every = [one for cell in times.values() for one in cell]
    slowest = max(times, key=lambda cell: median(times[cell]))
    return Gallery(
        index, len(times), len(every), 1e3 * median(every), slowest, 1e3 * median(times[slowest])
    )


def _sheets(shelf: Library, only: str, seeds: int) -> Iterator[Sheet]:
    """A sheet for every unit that has a family here, the units in their order."""
    cells = catalogue.cells(only)
    for unit in shelf.pack.units.values():
        own = [cell for cell in cells if shelf.pack.family(cell[0]).unit == unit.id]
        if own:
            drawn = (cell_page(shelf, family, mode, seeds) for family, mode in own)
            yield Sheet(unit.id, unit.words_in("en").name, tuple(drawn))


def cell_page(shelf: Library, family: str, mode: str, seeds: int) -> CellPage:
    """One cell drawn with the seeds from 0 up. Raises UnsoundScenario."""
    tellings = (shelf.telling(shelf.make(family, seed, mode)) for seed in range(seeds))
    return CellPage(family, mode, tuple(_drawn(telling) for telling in tellings))


def _drawn(telling: Telling) -> DrawnPage:
    made = telling.scenario
    return DrawnPage(
        made.seed,
        telling.title,
        "none" if made.margin is None else f"{made.margin:+g}",
        telling.situation,
        tuple(
            {
                "id": decision.id,
                "kind": decision.kind,
                "prompt": telling.prompt(decision),
                "answer": _answer(telling.correct(decision)),
            }
            for decision in made.decisions
        ),
        tuple(_states(telling)),
    )


def _answer(said: str) -> str:
    return "nothing" if said == NOTHING else said


def _states(telling: Telling) -> Iterator[State]:
    """As asked; as each decision waits that moves something; as each answers on the drawing."""
    made = telling.scenario
    asked = [decision.id for decision in made.decisions]
    yield _state(telling, 0, "as asked")
    for place, name in enumerate(asked, 1):
        if name in made.live:
            yield _state(telling, place, f"waits for {name}", waiting=name)
    for place, name in enumerate(asked, 1):
        if name in made.after:
            yield _state(telling, len(asked) + place, f"answered: {name}", answered=(name,))


def _state(telling: Telling, place: int, when: str, **how: Any) -> State:
    made = telling.scenario
    name = f"{made.family}-{made.mode}-{made.seed}-{place}-{_NAME}"
    began = time.perf_counter()
    figure = figure_of(telling, name=name, **how)
    took = time.perf_counter() - began
    return State(when, figure.replace(_NAME, "light"), figure.replace(_NAME, "dark"), took)


@lru_cache(maxsize=1)
def _templates() -> Environment:
    loader = FileSystemLoader(_TEMPLATES)
    return Environment(loader=loader, autoescape=select_autoescape(), trim_blocks=True)


def _write(path: Path, template: str, **names: Any) -> None:
    """Piece by piece, since a page holds hundreds of drawings."""
    pieces: Iterable[str] = _templates().get_template(template).generate(**names)
    with path.open("w", encoding="utf-8") as page:
        page.writelines(pieces)
