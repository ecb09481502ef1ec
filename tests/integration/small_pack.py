"""A whole pack in miniature, for tests that spoil it."""

from __future__ import annotations

from pathlib import Path

from tests.unit.engine.samples import EVERY_KIND

FILES = {
    "rulebook.yaml": """\
version: "1"
default_profile: here
documents:
  guide: {name: A guide}
subjects:
  side-lap:
    name: side lap
    direction: at least
    dimension: length
    guards: water between sheets
    severity: quality
    rules:
      lap-guide:
        limit: [{value: 75, unit: mm}, {value: 3, unit: in}]
        source: {document: guide}
        status: read
  primer-age:
    name: age of the primer
    direction: at most
    dimension: duration
    guards: the bond
    severity: quality
    rules:
      age-guide: {limit: [{value: 180, unit: min}], source: {document: guide}, status: read}
  surface:
    name: surface
    direction: at least
    dimension: temperature
    guards: the bond
    severity: quality
    rules:
      surface-guide: {limit: [{value: 5, unit: °C}], source: {document: guide}, status: read}
profiles:
  here: {name: here, note: all of it, in_force: [lap-guide, age-guide, surface-guide]}
""",
    "units.yaml": """\
version: 1
units:
  - id: laps
    place: lap
    severity: quality
    words:
      en: {name: Laps, word: lap, able_to: Keep laps wide enough.}
""",
    "terms.yaml": """\
version: 1
terms:
  en:
    step: {roll: roll it, press laps: press it, bond bottom: bond it}
""",
    "misconceptions.yaml": """\
version: 1
words:
  en:
    too-strict: ask for too much
    second-worst: take the second worst for the worst
    only-the-middle: look at the middle only
    near-enough: let near enough pass
    up-there: look too high
    forgot-the-lap: forget the lap
    no-time: leave no time
    press-first: press what is not there
""",
    "families/every-kind.yaml": EVERY_KIND.lstrip(),
    "lessons/laps.yaml": """\
unit: laps
version: 1
minutes: 3
rules: [side-lap]
words:
  en:
    title: Laps
    sections:
      - heading: What a lap is
        text: [Two sheets.]
        example: {family: every-kind, seed: 1, mode: wide, decision: take}
""",
}


class SmallPack:
    """The files, written to a folder; ``spoil`` changes one of them."""

    def __init__(self, root: Path) -> None:
        self.root = root
        for name, text in FILES.items():
            (root / name).parent.mkdir(parents=True, exist_ok=True)
            (root / name).write_text(text, "utf-8")

    def spoil(self, name: str, old: str, new: str) -> int:
        """Replaces ``old`` by ``new`` once; the line, from 1, on which it stood."""
        path = self.root / name
        text = path.read_text("utf-8")
        assert old in text, old
        path.write_text(text.replace(old, new, 1), "utf-8")
        return text[: text.index(old)].count("\n") + 1

    def mend(self, name: str) -> None:
        (self.root / name).write_text(FILES[name], "utf-8")
