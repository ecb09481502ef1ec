"""One figure against matplotlib drawing the same primitives as SVG. Goal: a hundredth of its time.

The same primitives: an outline for every path and circle, hatched where the figure hatches it, a
text for every text; without scales, placing of labels or anything else the figure works out.
"""

from __future__ import annotations

import io
import re
from statistics import median
from time import perf_counter
from typing import NamedTuple
from xml.etree import ElementTree

import pytest

from tests.unit.drawing.random_figures import KINDS, some_figure
from trainer.drawing import draw

GOAL = 100
ROUNDS = 7
_NUMBER = re.compile(r"-?\d*\.?\d+")

Point = tuple[float, float]


class Primitives(NamedTuple):
    """What stands in a drawing: outlines by their points, hatched or not; texts by their place."""

    outlines: list[tuple[list[Point], bool]]
    texts: list[tuple[float, float, str]]


def primitives(svg: str) -> Primitives:
    """The outlines and texts of a drawing, patterns left out."""
    root = ElementTree.fromstring(svg)
    for defs in root.findall("{*}defs"):
        root.remove(defs)
    outlines = []
    for element in root.iter():
        if element.tag.endswith(("}path", "}circle")):
            numbers = [float(n) for n in _NUMBER.findall(element.get("d") or "0 0 9 9")]
            points = list(zip(numbers[::2], numbers[1::2], strict=False))
            outlines.append((points, "url(" in (element.get("fill") or "")))
    texts = [
        (float(text.get("x") or 0), float(text.get("y") or 0), "".join(text.itertext()))
        for text in root.iter("{http://www.w3.org/2000/svg}text")
    ]
    return Primitives([outline for outline in outlines if len(outline[0]) > 1], texts)


def drawn_by_matplotlib(wanted: Primitives) -> str:
    """The primitives as matplotlib writes them, on a bare figure of a phone's size."""
    from matplotlib.figure import Figure
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path

    figure = Figure(figsize=(3.58, 4))
    axes = figure.add_axes((0, 0, 1, 1))
    axes.axis("off")
    axes.set_xlim(0, 358)
    axes.set_ylim(400, 0)
    for points, hatched in wanted.outlines:
        axes.add_patch(PathPatch(Path(points), fill=False, hatch="//" if hatched else None))
    for x, y, words in wanted.texts:
        axes.text(x, y, words, fontsize=9)
    page = io.StringIO()
    figure.savefig(page, format="svg")
    return page.getvalue()


def seconds(work, *given) -> float:
    start = perf_counter()
    work(*given)
    return perf_counter() - start


@pytest.fixture(autouse=True)
def only_when_asked_for(request):
    off, on = (request.config.getoption(f"benchmark_{word}") for word in ("disable", "enable"))
    if off and not on:
        pytest.skip("benchmarks are switched on with --benchmark-enable")


@pytest.mark.parametrize("kind", KINDS)
def test_a_figure_beside_matplotlib(benchmark, kind: str) -> None:
    figure = some_figure(kind, 1)
    wanted = primitives(draw(figure))
    drawn_by_matplotlib(wanted)
    theirs, ours = [], []
    for _ in range(ROUNDS):
        theirs.append(seconds(drawn_by_matplotlib, wanted))
        ours += [seconds(draw, figure) for _ in range(20)]
    ratio, floor = median(theirs) / median(ours), min(theirs) / min(ours)
    benchmark.extra_info["matplotlib_over_figure"] = round(ratio)
    benchmark(draw, figure)
    print(
        f"\n{kind}: matplotlib {median(theirs) * 1e3:.0f} ms, figure {median(ours) * 1e6:.0f} µs, "
        f"1/{ratio:.0f}, fastest of each 1/{floor:.0f} (goal 1/{GOAL}); "
        f"{len(wanted.outlines)} outlines, {len(wanted.texts)} texts"
    )
