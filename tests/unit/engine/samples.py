"""An invented family that asks one decision of every kind, and rules for it to lean on."""

from __future__ import annotations

from functools import cache

from trainer.engine.solve import Scenario, make
from trainer.engine.spec import Family
from trainer.pack.families import family_of
from trainer.pack.positions import parse
from trainer.roofing.rule import Rule, Source, Statement, Subject

LAP = Subject("side-lap", "side lap", "at least", "length", "water between sheets", "quality")
AGE = Subject("primer-age", "age of the primer", "at most", "duration", "the bond", "quality")
WARMTH = Subject("surface", "surface", "at least", "temperature", "the bond", "quality")
SUBJECTS = {subject.id: subject for subject in (LAP, AGE, WARMTH)}
TERMS = {"en": {"step": {"roll": "roll it", "press laps": "press it", "bond bottom": "bond it"}}}


def rule(subject: Subject, *statements: tuple[float, str], status: str = "read") -> Rule:
    made = tuple(Statement(value, unit) for value, unit in statements)
    words = "" if made else "as the data sheet says"
    return Rule(f"{subject.id}-rule", subject, made, Source("a handbook"), status, in_words=words)


class Rules:
    """The rules in force, as the engine asks for them."""

    def __init__(self, *rules: Rule) -> None:
        self.by_subject = {made.subject: made for made in rules}

    def rule(self, subject: str) -> Rule:
        return self.by_subject[subject]

    def may_grade(self, subject: str) -> bool:
        return subject in self.by_subject and self.by_subject[subject].may_grade


RULES = Rules(
    rule(LAP, (75, "mm"), (3, "in")), rule(AGE, (180, "min")), rule(WARMTH, (5, "°C"), (40, "°F"))
)

EVERY_KIND = """
family: every-kind
version: 3
unit: laps
severity: critical
rules: {keep: side-lap, oldest: primer-age, warmth: surface}
values:
  sheet_mm: {one_of: [1000, 914]}
  lap_mm: at margin
  primed_at: {from: 7 * 60, to: 10 * 60, step: 5}
  surface_c: {from: 6, to: 20, step: 0.5}
  bad: {one_of: [left, middle, right], take: 2}
  places: '[["left", 100], ["middle", 300], ["right", 500]]'
margin: {of: lap_mm, rule: keep, tolerance: 2, step: 0.5}
modes:
  wide: {margin: [1.5, 9]}
  short: {margin: [-9, -1.5], weight: 2}
judge:
  laps:
    calculator: lap
    inputs: {measured_mm: "[lap_mm]", required_mm: keep.high, uncertainty_mm: 0}
figure:
  kind: wall-elevation
  wall_mm: = sheet_mm * 3
  label: "@lap"
  pieces: [{at: = lap_mm / 2}, plain]
live:
  put: {movable: {from: = lap_mm}}
after:
  put: {overlays: [{at: = keep.high}]}
  much: {overlays: [{at: 1}], note: "@lap"}
decisions:
  - id: take
    kind: choose
    options:
      - {id: keep-it, right: 'laps.overall == "accept"'}
      - {id: redo, right: 'laps.overall != "accept"', misconception: too-strict, critical: "False"}
      - {id: never, right: False, misconception: too-strict, when: lap_mm > 0}
  - id: go
    kind: go_stop
    answer: laps.overall == "accept"
    options:
      - {id: short, right: 'laps.overall != "accept"'}
      - {id: cold, right: surface_c < warmth.low, critical: "True"}
  - id: worst
    kind: mark
    parts: '[{"id": name, "at_mm": at} for name, at in places]'
    answer: part.id == bad[0]
    options:
      - {id: other, when: 'part.id == bad[1]', misconception: second-worst}
  - id: every
    kind: find
    parts: '[{"id": name} for name, at in places]'
    answer: part.id in bad
    options:
      - {id: edge, when: 'part.id in ("left", "right")', misconception: only-the-middle}
  - id: put
    kind: place
    axes: xy
    from: 0
    to: sheet_mm
    from_y: 0
    to_y: 400
    step: 5
    tolerance: 2
    answer: x >= keep.high and y <= 300
    dangerous: y > 300
    options:
      - {id: in-place, at: 200, at_y: 100}
      - {id: near, at: 50, at_y: 100, misconception: near-enough}
      - {id: above, at: 200, at_y: 350, misconception: up-there}
  - id: much
    kind: measure
    unit: mm
    tolerance: 3
    answer: sheet_mm - lap_mm
    dangerous: response > answer
    options:
      - {id: all-of-it, value: sheet_mm, misconception: forgot-the-lap}
      - {id: the-same, value: sheet_mm - lap_mm + 1}
      - {id: none-of-it, value: 'None'}
  - id: until
    kind: time
    answer: primed_at + oldest.value
    tolerance: 1
    options:
      - {id: at-once, value: primed_at, misconception: no-time}
  - id: row
    kind: order
    job: '"wall"'
    parts: '["bond bottom", "roll", "press laps"]'
    options:
      - {id: press laps before bond bottom, misconception: press-first}
words:
  en:
    title: Every kind
    situation:
      - "A sheet {sheet_mm} wide, its lap {lap_mm}. Primed at {primed_at}, {surface_c}."
      - if: mode == "short"
        say: Something looks narrow.
    look: A wall of {(sheet_mm * 3)|m}.
    caution: Mind the edge.
    labels: {lap: "lap {lap_mm}"}
    decisions:
      take:
        prompt: What now?
        right: the rule asks for {keep|limit}, and it has {lap_mm}.
        wrong: "no: {answer|text} was right, not {response|text}."
        leads_to: Water.
        options:
          keep-it: Keep it.
          redo: {text: "Do it again.", wrong: it was good.}
          never: Leave it out.
      go:
        prompt: May we go on?
        right: so it is.
        wrong: not so.
        options: {go: Go., short: "Stop, it is short.", cold: "Stop, it is cold."}
      worst:
        prompt: Tap the worst.
        part: "The one at {part.at_mm|mm}."
        right: that is it.
        wrong: "not the {part.id}."
        options:
          second-worst: {wrong: nearly.}
      every:
        prompt: Tap every bad one.
        part: "The {part.id} one."
        right: all of them.
        wrong: "left out {len(misses)}, wrongly marked {len(false_alarms)}, found {len(hits)}."
      put:
        prompt: Put it there.
        right: good.
        wrong: "not at {at[0]|mm}."
        options: {in-place: Here., near: There., above: Up there.}
      much:
        prompt: How much is seen?
        right: that is it.
        wrong: "{given|mm} is off by {off_by|mm}."
        sums: ["{sheet_mm} − {lap_mm} = {answer|mm}"]
        options: {all-of-it: {wrong: the lap is hidden.}}
      until:
        prompt: Until when?
        right: that is it.
        wrong: no, {answer|at}.
        answer: "Until {answer|at}."
      row:
        prompt: Put these in order.
        part: "{word('step', part.id)}"
        right: so it goes.
        wrong: "{step} needs {needs} first."
        options:
          press laps before bond bottom: {wrong: there is no lap yet.}
"""


@cache
def family(text: str = EVERY_KIND) -> Family:
    """A family from YAML text, checked like any other."""
    return family_of(parse(text, "every-kind.yaml"), SUBJECTS, TERMS)


def scenario(seed: int = 7, mode: str = "", margin: float | None = None) -> Scenario:
    return make(family(), seed, RULES, mode, margin)
