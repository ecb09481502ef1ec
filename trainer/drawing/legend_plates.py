"""The whole language of the drawings on five plates, made from the registries themselves."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from trainer.drawing.canvas import EDGE, MARGIN, Canvas
from trainer.drawing.fields import Overlay, Request
from trainer.drawing.legend_marks import line_marks, sign_marks
from trainer.drawing.legend_words import hatch_words, symbol_words
from trainer.drawing.lettering import SIZE, SMALL, measured
from trainer.drawing.markup import rect_path
from trainer.drawing.overlay_data import OVERLAY_TYPES
from trainer.drawing.overlays import draw_overlays
from trainer.drawing.palette import fixed_colours
from trainer.drawing.symbols import symbol

WIDTH, _COLUMNS, _SIGN, _ROW = 720.0, 4, 52.0, 44.0

Cell = tuple[str, str]
"""What it means, and its markup round its own origin."""


def plates() -> dict[str, str]:
    """Every plate by its name, as a file that stands alone: ink on paper, on any ground."""
    makers: dict[str, tuple[str, Callable[[Canvas], Sequence[Cell]]]] = {
        "hatches": ("Hatches", _hatches),
        "symbols": ("Symbols", _symbols),
        "lines": ("Lines", lambda canvas: line_marks()),
        "signs": ("Signs", sign_marks),
    }
    made = {name: _plate(name, title, cells) for name, (title, cells) in makers.items()}
    return made | {"overlays": _overlays()}


def meanings() -> dict[str, list[str]]:
    """What is written on every plate, in its order."""
    canvas = _canvas("words", "words")
    return {
        "hatches": list(hatch_words().values()),
        "symbols": list(symbol_words().values()),
        "lines": [word for word, _ in line_marks()],
        "signs": [word for word, _ in sign_marks(canvas)],
        "overlays": list(OVERLAY_TYPES),
    }


def _canvas(name: str, title: str, after: list[Overlay] | None = None) -> Canvas:
    told = f"{title} of the drawings, each with its name."
    request = Request(
        "legend", f"legend-{name}", title, told, WIDTH, False, {}, {}, after, str, _millimetres
    )
    return Canvas(request)


def _millimetres(mm: float) -> str:
    return f"{mm:.0f}\u00a0mm"


def _plate(name: str, title: str, cells: Callable[[Canvas], Sequence[Cell]]) -> str:
    canvas = _canvas(name, title)
    column = (WIDTH - 2 * MARGIN) / _COLUMNS
    for i, (word, mark) in enumerate(cells(canvas)):
        x, y = MARGIN + i % _COLUMNS * column, i // _COLUMNS * _ROW
        canvas.lines.append(
            f'<g transform="translate({x + _SIGN / 2:.1f} {y + _ROW / 2:.1f})">{mark}</g>'
        )
        lines, _, high = measured(word, column - _SIGN - 8, SMALL)
        canvas.text(x + _SIGN + 2, y + (_ROW - high) / 2, lines, SMALL)
        canvas.reach(y, y + _ROW)
    return fixed_colours(canvas.svg()) + "\n"


def _hatches(canvas: Canvas) -> list[Cell]:
    box = rect_path((-22.0, -16.0, 22.0, 16.0))
    return [
        (word, f'<path d="{box}" fill="{canvas.hatch(name)}" stroke-width="{EDGE}"/>')
        for name, word in hatch_words().items()
    ]


def _symbols(canvas: Canvas) -> list[Cell]:
    return [(word, symbol(name, (0, 0))) for name, word in symbol_words().items()]


_SAMPLES: dict[str, Overlay] = {
    "dimension": Overlay(
        "dimension", (200, 30), (330, 30), text="100 mm, ticked when right", ok=True
    ),
    "circle": Overlay("circle", at=(265, 30), radius_mm=22, text="limit round a point"),
    "water": Overlay("water", path=((200, 20), (270, 24), (330, 44)), text="the way water takes"),
    "fire": Overlay("fire", path=((200, 20), (270, 24), (330, 44)), text="the way fire takes"),
    "way": Overlay("way", path=((190, 20), (270, 20), (330, 46)), text="too far to walk", ok=False),
    "ghost": Overlay(
        "ghost", outline=((210, 16), (320, 16), (320, 44), (210, 44)), text="belongs here"
    ),
    "note": Overlay("note", at=(240, 34), text="what is meant, crossed when wrong", ok=False),
}
_TALL = 68.0


def _overlays() -> str:
    """Each overlay on a row of its own, its name before it."""
    after = [_lower(_SAMPLES[name], i * _TALL) for i, name in enumerate(OVERLAY_TYPES)]
    canvas = _canvas("overlays", "Overlays", after)
    for i, name in enumerate(OVERLAY_TYPES):
        canvas.text(MARGIN, i * _TALL + 22, (name,), SIZE)
        canvas.placer.take((MARGIN, i * _TALL + 20, MARGIN + 90, i * _TALL + 40))
        canvas.reach(i * _TALL, (i + 1) * _TALL)
        canvas.placer.avoid_line((0.0, i * _TALL - 4), (WIDTH, i * _TALL - 4), 4)
    draw_overlays(canvas, lambda point: point, 1.0)
    return fixed_colours(canvas.svg()) + "\n"


def _lower(overlay: Overlay, down: float) -> Overlay:
    """The same overlay, further down the plate."""

    def moved(point: tuple[float, float]) -> tuple[float, float]:
        return (point[0], point[1] + down)

    return Overlay(
        overlay.type,
        overlay.start and moved(overlay.start),
        overlay.end and moved(overlay.end),
        overlay.at and moved(overlay.at),
        overlay.text,
        overlay.ok,
        overlay.radius_mm,
        overlay.offset_mm,
        tuple(moved(point) for point in overlay.path),
        tuple(moved(point) for point in overlay.outline),
    )
