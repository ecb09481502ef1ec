"""What a family is, once read and checked: frozen, without a trace of its file format."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from trainer.engine.expression import Expression
from trainer.engine.template import Passage, Template

KINDS = ("place", "mark", "find", "measure", "time", "order", "go_stop", "choose")
GO = "go"
"""The row of a go_stop decision that says go; an option of that name has the mistake behind it."""

MEASURED_IN = ("mm", "m", "c", "k", "min", "%", "l", "kg", "m²", "pieces")
"""Units of a decision of kind measure; lengths and temperatures are asked in the worker's own.

A value in "m" is held in millimetres like every length, and only asked and said in metres or feet.
"""


FEATURES = ("steps", "looks", "hidden", "faults")
"""What a family says of how hard its scenarios are; see ``features``."""


@dataclass(frozen=True)
class Draw:
    """How one value comes about: exactly one of the four ways is set.

    - ``low``, ``high``, ``step``: evenly from a grid;
    - ``one_of``: evenly from a list; with ``take`` a sample of that many, in drawn order;
    - ``formula``: worked out from the values before it;
    - ``at_margin``: the value that lies exactly ``margin`` tolerances from the limit.
    """

    low: Expression | None = None
    high: Expression | None = None
    step: float = 1
    one_of: Expression | None = None
    take: Expression | None = None
    formula: Expression | None = None
    at_margin: bool = False

    @property
    def ways(self) -> int:
        """How many of the four ways are set: one, but for a draw that could not be read."""
        return sum((self.low is not None, self.one_of is not None,
                    self.formula is not None, self.at_margin))  # fmt: skip


@dataclass(frozen=True)
class MarginSpec:
    """Which value is measured against which limit, and in what steps.

    ``tolerance`` is the unit of the margin, in the value's own unit: the measuring uncertainty, so
    that a margin of less than 1 on either side would be ambiguous. The limit is a rule of the book
    (``rule`` is its name in the family) or a drawn value (``limit`` with its ``direction``).
    """

    value: str
    tolerance: Expression
    step: float
    rule: str = ""
    limit: Expression | None = None
    direction: str = ""
    about_uncertainty: bool = False


@dataclass(frozen=True)
class Mode:
    """A fault mode: the margins it draws and the values it sets differently."""

    id: str
    margin: tuple[float, float] | None
    values: Mapping[str, Draw]
    weight: float = 1


@dataclass(frozen=True)
class Worked:
    """An example worked by hand: values and answers as a person typed them, for ``worked``.

    ``values`` holds every value that the mode draws, times of day as minutes or "HH:MM";
    ``answers`` what each decision came to, by its id.
    """

    mode: str
    values: Mapping[str, Any]
    answers: Mapping[str, Any]


@dataclass(frozen=True)
class Judge:
    """One call of a calculator; its results are known to later expressions under ``id``."""

    id: str
    calculator: str
    inputs: Mapping[str, Expression]


@dataclass(frozen=True)
class OptionSpec:
    """One thing that can be answered, what makes it right, and the mistake that makes it tempting.

    ``at`` and ``at_y`` place a candidate on the drawing; ``value`` is a tempting wrong number;
    ``critical`` overrides the decision's own word for this one option.
    """

    id: str
    right: Expression | None = None
    when: Expression | None = None
    misconception: str = ""
    critical: Expression | None = None
    at: Expression | None = None
    at_y: Expression | None = None
    value: Expression | None = None


@dataclass(frozen=True)
class DecisionSpec:
    """One decision of a family. Which fields are used depends on ``kind``:

    - choose: ``options`` with ``right``;
    - go_stop: ``answer`` (true means go) and ``options`` as the grounds that may hold, besides one
      called "go" for the mistake behind a wrong go;
    - mark, find: ``parts`` (list of {id, …}), ``answer`` (over ``part``: true for one that is
      meant), ``options`` as the mistakes behind wrong parts, told by ``when`` (over ``part``);
    - place: ``axes``, ``low``, ``high``, ``step``, ``answer`` (true where ``x``, ``y`` may stand),
      ``options`` as candidates with ``at``;
    - measure, time: ``answer``, ``tolerance``, ``unit``, ``options`` as tempting wrong values;
    - order: ``parts`` (step names), ``job`` of the sequence calculator, ``options`` as mistakes,
      named "a before b".
    """

    id: str
    kind: str
    critical: Expression
    when: Expression | None = None
    """Asked only in scenarios where this holds."""
    dangerous: Expression | None = None
    """For numbers and places: which wrong ``response`` (or ``x``, ``y``) is the dangerous one."""
    options: tuple[OptionSpec, ...] = ()
    answer: Expression | None = None
    parts: Expression | None = None
    tolerance: Expression | None = None
    unit: str = ""
    axes: str = ""
    low: Expression | None = None
    high: Expression | None = None
    low_y: Expression | None = None
    high_y: Expression | None = None
    step: float = 1
    job: Expression | None = None
    pinned: bool = False
    """True where the order of the rows means something and is not to be shuffled."""


@dataclass(frozen=True)
class OptionWords:
    """The texts of one option: its row, why it is right or wrong, what taking it leads to."""

    text: Template
    right: Passage
    wrong: Passage
    leads_to: Passage

    @classmethod
    def none(cls) -> OptionWords:
        """For an answer that has no words of its own."""
        return cls(Template(""), Passage(), Passage(), Passage())


@dataclass(frozen=True)
class DecisionWords:
    """The texts of one decision. ``part`` says a part of the drawing, or a step of an order."""

    prompt: Passage
    right: Passage
    wrong: Passage
    leads_to: Passage
    sums: Passage
    part: Template
    answer: Passage
    options: Mapping[str, OptionWords]


@dataclass(frozen=True)
class Words:
    """A family's texts in one language."""

    title: str
    situation: Passage
    look: Passage
    """What the figure shows, for somebody who cannot see it; never the answer."""
    caution: Passage
    decisions: Mapping[str, DecisionWords]
    labels: Mapping[str, Template] = field(default_factory=dict)
    """Texts of the figure, which names them as "@key"."""
    terms: Mapping[str, Mapping[str, str]] | None = field(default_factory=dict)
    """Words that families share, by sort and key: ``word('step', 'roll')``; None: not known yet."""
    worked: tuple[str, ...] = ()
    """The example worked by hand, line by line: values, sum and answer as plain texts."""


@dataclass(frozen=True)
class Family:
    """A scenario template.

    ``rules`` maps a name used in expressions to a subject of the rule book. ``clear_of`` are more
    limits that drawn values stay away from, besides that of ``margin``.
    """

    id: str
    version: int
    unit: str
    severity: str
    figure: Mapping[str, Any]
    """Plain data whose strings beginning with "=" have become expressions; see ``solve.fill``."""
    live: Mapping[str, Mapping[str, Any]]
    """By decision: what the figure gains while that decision waits (something to move)."""
    after: Mapping[str, Mapping[str, Any]]
    """By decision: what the figure gains once it is answered; ``overlays`` add up."""
    rules: Mapping[str, str]
    values: Mapping[str, Draw]
    margin: MarginSpec | None
    modes: Mapping[str, Mode]
    judges: tuple[Judge, ...]
    decisions: tuple[DecisionSpec, ...]
    words: Mapping[str, Words]
    clear_of: tuple[MarginSpec, ...] = ()
    features: Mapping[str, Expression] = field(default_factory=dict)
    """All of :data:`FEATURES`, or none in a family that does not say."""
    worked: Worked | None = None
    practice_only: bool = False
    """True where the truth rests on the practice of the trade alone: never used to prove."""
    source: str = ""
    """Where the family was read from, for messages."""

    def words_in(self, language: str) -> Words:
        """The texts in ``language``, else in English."""
        return self.words.get(language) or self.words["en"]

    def decision(self, decision_id: str) -> DecisionSpec:
        return next(d for d in self.decisions if d.id == decision_id)
