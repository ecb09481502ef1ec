"""Makes docs/legend.md and its pictures: python -m tests.unit.drawing.legend_files."""

from __future__ import annotations

from pathlib import Path

from trainer.drawing import KINDS
from trainer.drawing.hatches import NAMES as HATCHES
from trainer.drawing.legend_plates import meanings, plates
from trainer.drawing.legend_words import hatch_words
from trainer.drawing.symbols import NAMES as SYMBOLS
from trainer.drawing.timeline_data import BANDS, EVENTS

DOCS = Path(__file__).parents[3] / "docs"
_TITLES = {
    "hatches": "Hatches: what a thing is made of, or what state it is in",
    "symbols": "Symbols: what stands on the roof, what happens at a time",
    "lines": "Lines",
    "signs": "Signs: laps, faults, what is pressed and moved, what became of it",
    "overlays": "Overlays: what is drawn on top once the decision is answered",
}
_HEAD = """# The language of the drawings

Everything a drawing says without words, with its name. Nothing depends on colour alone: primer
differs by pattern, laps by their sign, right and wrong by tick and cross. Symbols are not to
scale; the rest is. How to ask for a figure is in [drawings.md](drawings.md).

This page and its pictures are made from the drawings' own lists:
`uv run python -m tests.unit.drawing.legend_files`.
"""


def files() -> dict[Path, str]:
    """The page and its pictures by where they belong."""
    made = {DOCS / "img" / f"legend-{name}.svg": svg for name, svg in plates().items()}
    return made | {DOCS / "legend.md": page()}


def page() -> str:
    """The whole page."""
    words = meanings()
    parts = [_HEAD]
    for name, title in _TITLES.items():
        listed = ", ".join(words[name])
        parts.append(f"## {title}\n\n![{title}](img/legend-{name}.svg)\n\nIn order: {listed}.\n")
    return "\n".join([*parts, _timeline(), _kinds()])


def _timeline() -> str:
    """Which hatch and which symbol the timeline takes for what."""
    meaning = hatch_words()
    rows = [f"| {band} | {meaning[hatch]} |" for band, hatch in BANDS.items()]
    events = ", ".join(EVENTS)
    return (
        "## On the timeline\n\n| band | drawn as |\n|---|---|\n"
        + "\n".join(rows)
        + f"\n\nEvents, each with the symbol of its name: {events}.\n"
    )


def _kinds() -> str:
    kinds = "\n".join([f"- `{kind}`" for kind in KINDS])
    names = f"Names in the code. Hatches: {', '.join(HATCHES)}. Symbols: {', '.join(SYMBOLS)}.\n"
    return f"## Kinds of figure\n\n{kinds}\n\n{names}"


def main() -> None:
    """Write everything."""
    for path, text in files().items():
        path.write_text(text, encoding="utf-8")
        print(path.relative_to(DOCS.parent))


if __name__ == "__main__":
    main()
