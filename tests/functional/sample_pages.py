"""Rich pages of an invented site: all eight kinds of decision, lessons, records, people.

Names, crews and values are invented; limits are quoted as the pages would quote them.
"""

from __future__ import annotations

from dataclasses import replace

from tests.functional import sample_figures as figures
from trainer.services.pages import (
    DecisionPage,
    HomePage,
    LessonPage,
    LessonSection,
    NumberInput,
    PersonLine,
    ProveResult,
    ProveStart,
    RecordLine,
    RecordPage,
    RecordUnit,
    Row,
    ScenarioPage,
    UnitPage,
    Verdict,
)

UNITS = {
    "primer": "Primer and substrate",
    "setting-out": "Setting out and cutting",
    "laps": "Laps",
    "stagger": "Stagger and clearance of laps",
    "sequence": "Order of work on a wall",
    "corners": "Corners",
    "flame": "Flame at the parapet",
    "fire-watch": "Fire watch",
}
_ABLE = {
    "primer": "Tells from time, touch and weather whether a primed wall may take the sheet now.",
    "setting-out": "Snaps the line and cuts sheets that reach from the field over the top.",
    "laps": "Measures laps, says which hold and which must be opened or covered.",
    "stagger": "Places every flashing lap clear of the laps already laid.",
    "sequence": "Takes the steps at the wall in an order that traps neither air nor solvent.",
    "corners": "Folds, cuts and closes inside and outside corners.",
    "flame": "Decides whether a flame may come near, and says why not.",
    "fire-watch": "Names the time until which somebody watches, and who.",
}
CRITICAL = {"primer", "flame", "fire-watch", "corners"}
FLAME_CAUTION = (
    "No flame near anything combustible in or behind the parapet, closed or not. "
    "The hot-work rules of the place govern."
)


def units() -> tuple[UnitPage, ...]:
    return tuple(
        UnitPage(
            id=unit,
            name=name,
            able_to=_ABLE[unit],
            place=name,
            severity="critical" if unit in CRITICAL else "quality",
            lesson_read=place < 4,
            practised=12 if place < 2 else 0,
            last="yesterday" if place < 2 else "",
            standing="12 scenarios practised, 30 of 36 decisions right"
            if place < 2
            else "not practised yet",
        )
        for place, (unit, name) in enumerate(UNITS.items())
    )


def home() -> HomePage:
    return HomePage(
        person="Rena Okafor",
        figure=figures.section(list(UNITS.items())),
        units=units(),
        next_step="On Tuesday two laps were taken too near a field lap. Go over stagger next.",
        next_verb="practise",
        next_unit="stagger",
    )


def _rows(*texts: tuple[str, str]) -> tuple[Row, ...]:
    return tuple(Row(*text) for text in texts)


_PARTS = _rows(
    ("lap", "The lap beside the corner, still open"),
    ("can", "The primer can without a lid"),
    ("cylinder", "The gas cylinder, upright and tied"),
    ("corner", "The corner, not filled yet"),
)
DECISIONS: dict[str, DecisionPage] = {
    "place": DecisionPage(
        "edge",
        "place",
        False,
        "Where does the left edge of the third sheet go? Move the sheet.",
        _rows(
            ("a", "At 2 040 mm from the corner, straight on from the second sheet."),
            ("b", "At 2 110 mm, so that the lap stands 110 mm clear of the field lap."),
            ("c", "At 1 960 mm, right on the field lap, because it hides the seam."),
        ),
        axes="x",
    ),
    "mark": DecisionPage(
        "nearest",
        "mark",
        True,
        "Which of these must be dealt with before anything else? Tap it.",
        _PARTS,
    ),
    "find": DecisionPage(
        "all", "find", True, "Tap everything that forbids lighting the torch.", _PARTS
    ),
    "measure": DecisionPage(
        "clear",
        "measure",
        False,
        "How far is the lap clear of the field lap?",
        number=NumberInput("mm", "Within 5 mm counts.", 0, 1000, 5),
    ),
    "time": DecisionPage(
        "latest",
        "time",
        True,
        "Until what time may the sheet still go onto this primer?",
        number=NumberInput("", "", start="13:05"),
    ),
    "order": DecisionPage(
        "steps",
        "order",
        True,
        "Put the steps at the corner in order.",
        _rows(
            ("weld", "Weld the laps with torch and trowel."),
            ("fill", "Work hot bitumen into the corner with the trowel."),
            ("bond", "Bond the upper half, then the lower half, and roll the whole sheet."),
            ("watch", "Stay for the fire watch."),
            ("preheat", "Preheat the film on the overlap strip, 1 m away from the parapet."),
        ),
    ),
    "go_stop": DecisionPage(
        "flame",
        "go_stop",
        True,
        "Ivo lights the torch 900 mm from the corner. Go, or stop?",
        _rows(
            ("go", "Go: the corner is far enough away."),
            ("unclosed", "Stop: the corner is not closed and lies within a metre."),
            ("wet", "Stop: the primer on the next wall is still wet."),
        ),
    ),
    "choose": DecisionPage(
        "remedy",
        "choose",
        False,
        "The lap measures 60 mm where 75 mm is asked. What do you do?",
        _rows(
            ("leave", "Leave it; the weld will spread and make up for it."),
            ("strip", "Weld a cover strip 150 mm wide over the exposed edge."),
            ("peel", "Peel the sheet off and stick it again 15 mm further."),
        ),
    ),
}
FIGURES = {
    "place": figures.elevation(movable=True),
    "mark": figures.plan(live=True),
    "find": figures.plan(live=True),
    "measure": figures.elevation(),
    "time": figures.timeline(),
}

RIGHT = Verdict(
    right=True,
    critical=False,
    headline="Right, because",
    because="the lap stands 110 mm clear of the field lap, and 100 mm is asked.",
    chosen="At 2 110 mm",
    correct="",
    sums=("edge of the field lap = 2 000 mm", "2 110 − 2 000 = 110 mm", "110 ≥ 100 = holds"),
    rules=(
        "A flashing lap stays 100 mm (4 in) clear of any lap laid: common practice, no source.",
    ),
)
NOT_YET = Verdict(
    right=False,
    critical=False,
    headline="Not yet, because",
    because="the lap lands 40 mm from the field lap: three thicknesses pile up there.",
    chosen="At 2 040 mm from the corner, straight on from the second sheet.",
    correct="At 2 100 mm or further from the corner.",
    sums=("edge of the field lap = 2 000 mm", "2 040 − 2 000 = 40 mm", "100 − 40 = 60 mm short"),
    leads_to="Water stands at the step and works its way under the upper sheet.",
    rules=(
        "A flashing lap stays 100 mm (4 in) clear of any lap laid: common practice, no source.",
    ),
)
DANGEROUS = Verdict(
    right=False,
    critical=True,
    headline="Not yet, because",
    because="the corner is open and the flame stands 900 mm from it.",
    chosen="Go: the corner is far enough away.",
    correct="Stop: the corner is not closed and lies within a metre.",
    sums=("√(640² + 633²) = 900 mm", "1 000 − 900 = 100 mm short"),
    leads_to="The flame reaches through the slit to the nailer behind it and smoulders unseen.",
    caution=FLAME_CAUTION,
    rules=(
        "Keep 1 m (3 ft) to anything unclosed: common practice, no source.",
        "No flame at combustible construction: the hot-work rules of the place.",
    ),
)


def scenario(kind: str, attempt: str = "a1") -> ScenarioPage:
    """A scenario with one decision of ``kind`` that waits."""
    decision = DECISIONS[kind]
    return ScenarioPage(
        attempt=attempt,
        purpose="practise",
        unit="stagger",
        unit_name=UNITS["stagger"],
        title="A third sheet beside a field lap",
        situation=(
            "The wall is 4.2 m long. Two sheets are on, the third is cut and lies ready.",
            "It is 11 °C and dry, the primer passed the finger test ten minutes ago.",
        ),
        figure=FIGURES.get(kind, figures.plan()),
        legend=_rows(("A", "lap already laid in the field"), ("B", "chalk line")),
        decisions=(decision,),
        current=decision,
        caution=FLAME_CAUTION if decision.critical else "",
        sheet="lap-beside-lap 2 · 48 213",
        profile="Site rules, north roof",
    )


def with_verdict(page: ScenarioPage, decision: str, verdict: Verdict) -> ScenarioPage:
    """``page`` once ``decision`` is made and came to ``verdict``."""
    made = tuple(replace(d, verdict=verdict) if d.id == decision else d for d in page.decisions)
    waits = next((d for d in made if d.verdict is None), None)
    return replace(page, decisions=made, current=waits, figure=figures.elevation(answered=True))


def lesson() -> LessonPage:
    return LessonPage(
        unit="stagger",
        unit_name=UNITS["stagger"],
        title="Why a flashing lap keeps away from a field lap",
        minutes=4,
        sections=(
            LessonSection(
                "What piles up",
                (
                    "Where a flashing lap lands on a field lap, four thicknesses lie on top.",
                    "The step is where water stands, and where the roller does not reach.",
                ),
                figures.elevation(),
                ("field lap ends = 2 000 mm", "2 000 + 100 = 2 100 mm"),
            ),
            LessonSection(
                "With the torch in hand",
                ("A pile of film burns longer than one does.",),
                caution=FLAME_CAUTION,
            ),
        ),
        rules=("100 mm (4 in) clear of any lap already laid: common practice, no source.",),
        read_on="The data sheet of the membrane may ask for more.",
    )


LINES = (
    RecordLine(
        when="Tuesday 24 November, 07:40",
        what="A third sheet beside a field lap",
        outcome="2 of 2 right",
        right=2,
        of=2,
        attempt="two",
    ),
    RecordLine(
        when="Monday 23 November, 12:05",
        what="Torch beside an open corner",
        outcome="1 of 2 right; one decision could have hurt somebody",
        right=1,
        of=2,
        critical=True,
        at="2026-11-23T12:05:00+00:00",
    ),
    RecordLine(
        when="Monday 23 November, 11:58",
        what="Lap of 60 mm",
        outcome="0 of 1 right",
        right=0,
        of=1,
        at="2026-11-23T11:58:00+00:00",
    ),
)


def record() -> RecordPage:
    return RecordPage(
        person="Rena Okafor",
        person_id="p7",
        crew="Crew North",
        units=tuple(
            RecordUnit(
                unit,
                name,
                "lesson read",
                "12 scenarios practised, 30 of 36 decisions right, yesterday",
                "torches beside corners that are not closed" if unit == "flame" else "",
            )
            for unit, name in UNITS.items()
        ),
        lines=LINES,
        more=True,
        notice="This is practice. It shows what was tried here, not who may work alone on a roof.",
    )


def people() -> tuple[PersonLine, ...]:
    return (
        PersonLine("p7", "Rena Okafor", "Crew North", "30 of 36 decisions right", "yesterday"),
        PersonLine("p9", "Ivo Marek", "Crew North", "nothing practised yet", ""),
        PersonLine("p11", "Sanna Lindqvist", "Crew South", "58 of 60 decisions right", "today"),
    )  # fmt: skip


def prove_start(open_set: str = "") -> ProveStart:
    return ProveStart(
        unit="stagger",
        unit_name=UNITS["stagger"],
        scenarios=5,
        minutes=12,
        notice="The real proving session is not built yet.",
        open_set=open_set,
    )


def prove_result() -> ProveResult:
    return ProveResult(
        set="s1",
        unit="stagger",
        unit_name=UNITS["stagger"],
        finding="Four of five scenarios were right. A torch came too near an open corner once.",
        lines=LINES,
        notice="It says what to practise next and nothing else.",
        practise_next=_rows(("flame", "Flame at the parapet")),
    )
