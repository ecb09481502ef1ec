"""What a page is given: frozen, worded, in the worker's language and units; views only show it.

Every text here is ready to show; every id is what a form sends back.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from trainer.services.installations.record_data import InstalledLine, InstalledUnit


@dataclass(frozen=True)
class Row:
    """One answer row, part of the drawing, or step: its id and the full sentence that says it."""

    id: str
    text: str


@dataclass(frozen=True)
class NumberInput:
    """A number to type. ``unit`` is shown beside it; the response is sent in that unit."""

    unit: str
    tolerance: str
    """In words: "within 5 mm counts"; empty where it must be exact."""
    low: float | None = None
    high: float | None = None
    step: float | None = None
    start: str = ""
    """Of a time of day: from where the steps beside an empty field go on."""


@dataclass(frozen=True)
class Verdict:
    """What the drawing and the sum answer, once a decision is made."""

    right: bool
    critical: bool
    """True when this very error can burn, drop or gas somebody."""
    headline: str
    """"Right, because" or "Not yet, because", translated."""
    because: str
    chosen: str
    correct: str
    """The right answer in words; empty when ``right``."""
    sums: tuple[str, ...] = ()
    leads_to: str = ""
    caution: str = ""
    rules: tuple[str, ...] = ()
    """One sentence a rule used: value and where it is from."""


@dataclass(frozen=True)
class DecisionPage:
    """One decision: ``kind`` is place, mark, find, measure, time, order, go_stop or choose.

    - place, choose, go_stop: ``rows`` (radio); place is also answered by dragging the movable
      thing of the figure, which sends x_mm (and y_mm) instead of a row id;
    - mark: ``rows`` are the parts of the drawing (radio); find: the same as tick boxes;
    - order: ``rows`` are the steps as drawn from the hat, to be put in order;
    - measure: ``number``; time: a clock time HH:MM.
    """

    id: str
    kind: str
    critical: bool
    prompt: str
    rows: tuple[Row, ...] = ()
    number: NumberInput | None = None
    axes: str = ""
    """For place: "x", "y" or "xy"."""
    verdict: Verdict | None = None


@dataclass(frozen=True)
class ScenarioPage:
    """A scenario as one worker sees it now. ``current`` is the decision that waits, if any."""

    attempt: str
    purpose: str
    """"practise" or "prove-practice"."""
    unit: str
    unit_name: str
    title: str
    situation: tuple[str, ...]
    """Short paragraphs, as a foreman would say it."""
    figure: str
    """SVG of the scenario as it now stands (after a decision it answers)."""
    legend: tuple[Row, ...]
    decisions: tuple[DecisionPage, ...]
    current: DecisionPage | None
    number: int = 0
    """In a fixed form: which scenario of how many; 0 in practice."""
    of: int = 0
    caution: str = ""
    sheet: str = ""
    """Title block: which family, version and seed this is, in words."""
    profile: str = ""
    """Title block: whose rules are in force, in words."""
    set: str = ""
    """The fixed form it belongs to; empty in practice."""
    notice: str = ""
    """A quiet line under the situation, where its truth rests on practice alone."""
    family: str = ""
    example: tuple[str, ...] = ()
    """The family's example worked by hand, line by line, while a decision waits in practice."""

    @property
    def done(self) -> bool:
        return self.current is None


@dataclass(frozen=True)
class UnitPage:
    """One unit of competency as the way in shows it."""

    id: str
    name: str
    able_to: str
    """What a person must be able to do, one sentence."""
    place: str
    """Which part of the parapet section leads here."""
    severity: str
    lesson_read: bool
    practised: int
    """Scenarios finished in practice."""
    last: str
    """In words: "last practised on Tuesday"; empty when never."""
    standing: str = ""
    """In words; the program knows only practice yet: "12 scenarios practised, 30 of 36 right"."""
    caution: str = ""
    """The usual caution of the work, where it can burn people or make them fall."""


@dataclass(frozen=True)
class HomePage:
    """The parapet section and the eight units."""

    person: str
    figure: str
    """SVG whose parts carry data-part = unit id and are links."""
    units: tuple[UnitPage, ...]
    next_step: str
    """What to do next, one sentence."""
    next_verb: str = ""
    """"learn" or "practise"."""
    next_unit: str = ""
    """Of which unit; empty for whatever comes."""
    open_attempt: str = ""
    """A scenario left open, to go on with."""


@dataclass(frozen=True)
class LessonSection:
    """A heading, paragraphs, and where it helps a drawing with its worked sum."""

    heading: str
    paragraphs: tuple[str, ...]
    figure: str = ""
    sums: tuple[str, ...] = ()
    caution: str = ""
    situation: tuple[str, ...] = ()
    """Of the worked example, like ``question`` and ``answer`` (what is right, and because)."""
    question: str = ""
    answer: tuple[str, ...] = ()


@dataclass(frozen=True)
class LessonPage:
    unit: str
    unit_name: str
    title: str
    minutes: int
    sections: tuple[LessonSection, ...]
    rules: tuple[str, ...]
    read_on: str = ""


@dataclass(frozen=True)
class ExampleStep:
    """One decision of an example: what is asked, what is right, and the drawing that answers."""

    prompt: str
    answer: str
    figure: str = ""
    """Empty where the answer adds nothing to the drawing."""


@dataclass(frozen=True)
class ExamplePage:
    """A scenario that somebody worked out by hand, drawn and answered."""

    title: str
    unit: str
    unit_name: str
    situation: tuple[str, ...]
    figure: str
    steps: tuple[ExampleStep, ...]
    lines: tuple[str, ...]
    """Values, sum and answer as they were written by hand."""


@dataclass(frozen=True)
class RecordLine:
    """One line of a record: when, what, how it came out, in words."""

    when: str
    what: str
    outcome: str
    right: int
    of: int
    critical: bool = False
    attempt: str = ""
    """The scenario to look at again."""
    at: str = ""
    """The moment it was opened, ISO 8601: where the next page goes on."""
    purpose: str = "practise"


@dataclass(frozen=True)
class RecordUnit:
    unit: str
    name: str
    lesson: str
    practice: str
    """"practised 12 times, the last 4 right; never proved" and the like."""
    watch: str = ""
    """What keeps going wrong, in words; empty when nothing does."""
    installed: tuple[InstalledUnit, ...] = ()


@dataclass(frozen=True)
class RecordPage:
    person: str
    person_id: str
    crew: str
    units: tuple[RecordUnit, ...]
    lines: tuple[RecordLine, ...]
    more: bool = False
    notice: str = ""
    """What this record does and does not say."""
    installed: tuple[InstalledLine, ...] = ()
    """Whole installations finished in the time that ``lines`` cover."""


@dataclass(frozen=True)
class ProveStart:
    """Before a fixed form begins: what it is, how long, and that it is practice only."""

    unit: str
    unit_name: str
    scenarios: int
    minutes: int
    notice: str
    open_set: str = ""
    """Id of a form left open, to go on with."""


@dataclass(frozen=True)
class ProveResult:
    set: str
    unit: str
    unit_name: str
    finding: str
    """In words; never a percentage alone."""
    lines: tuple[RecordLine, ...]
    notice: str
    practise_next: tuple[Row, ...] = field(default=())


@dataclass(frozen=True)
class PersonLine:
    """One worker in a supervisor's or coordinator's list."""

    id: str
    name: str
    crew: str
    summary: str
    last_seen: str
