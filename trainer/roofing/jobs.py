"""The jobs whose order is taught: the steps of each, what each truly needs, what each guards.

A job is a small graph. Each step names its direct needs only; what must come first through others
follows. Steps are listed in one valid order, but any order that respects the needs is right.

A step guards against fire when leaving it out, or doing it too early, brings a flame to something
that can burn or to a wall that is still open, or leaves gas where a flame may find it. Every other
step guards the quality of the work.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, get_args

from trainer.errors import InputError
from trainer.roofing.contract import Choice

Job = Literal["wall", "inside corner", "outside corner", "gas shut-down"]
Guards = Literal["fire", "quality"]

JOBS: tuple[Job, ...] = get_args(Job)


@dataclass(frozen=True)
class Step:
    """One step of a job: the steps it directly needs, what it guards, and what it comes down to."""

    name: str
    needs: tuple[str, ...]
    guards: Guards
    meaning: str


# The reasons behind these needs are the trade's own: common practice, no source.
_OPENING = (
    Step(
        "substrate gate",
        (),
        "fire",
        "substrate sound, dry, clean and warm enough; nothing in or behind the parapet can burn; "
        "hot-work permit open",
    ),
    Step("prime", ("substrate gate",), "quality", "roll the primer on where the sheet will lie"),
    # Fire: solvent primer that is still wet feeds any flame on the roof, the preheating one first.
    Step("touch-test", ("prime",), "fire", "primer dry to the touch, nothing on the finger"),
    # Primer rolled over a line hides it, and a line does not hold on wet primer.
    Step("chalk line", ("touch-test",), "quality", "snap the line the sheet comes down to"),
    Step("cut", (), "quality", "cut strips to the girth, angle the corner the next will cover"),
    # Fire: film left for later has to be heated at a wall that is still open.
    Step(
        "preheat film",
        ("touch-test", "cut"),
        "fire",
        "heat the film on the strip the next sheet will cover, well away from the parapet",
    ),
)

_WALL = (
    Step(
        "bond top",
        ("chalk line", "preheat film"),
        "quality",
        "set the sheet to the line, pull the upper release film, bond the upper half",
    ),
    Step("bond bottom", ("bond top",), "quality", "pull the lower release film, bond down"),
    # Fire, here and below: rolled and pressed laps are what closes the wall.
    Step("roll", ("bond bottom",), "fire", "roll the whole sheet"),
    Step("press laps", ("roll",), "fire", "press the air out of every lap"),
)


def _corner(before_top: tuple[str, ...], before_bottom: tuple[str, ...]) -> tuple[Step, ...]:
    """Two sheets and the fill. A doubled leg is trimmed before it sticks, or the knife cuts on."""
    return (
        Step(
            "first sheet",
            ("chalk line", "preheat film"),
            "quality",
            "fold the first sheet round the corner, set it to the line, slit both ends of the fold",
        ),
        Step("trim", ("first sheet",), "quality", "mitre away what doubles up at the corner"),
        Step("bond top", before_top, "quality", "pull the upper release film, bond the upper half"),
        Step("bond bottom", before_bottom, "quality", "pull the lower release film, bond down"),
        Step(
            "second sheet",
            ("bond bottom",),
            "quality",
            "lay the second corner sheet from the other wall over the first",
        ),
        Step("roll", ("second sheet",), "fire", "roll both sheets, right into the corner"),
        Step("press laps", ("roll",), "fire", "press the air out of every lap"),
        # A roller would drag the hot bitumen out again, so it comes after.
        Step("fill corner", ("roll",), "fire", "work hot bitumen into corner and slits"),
    )


_GUSSET = Step(
    "set gusset", ("light the torch",), "quality", "heat the gusset's back and the corner, set it"
)


def _closing(closed_by: tuple[str, ...], gusset: tuple[Step, ...] = ()) -> tuple[Step, ...]:
    """From the flame at the parapet to the closed permit."""
    before_welding = gusset[-1].name if gusset else "light the torch"
    return (
        Step("light the torch", closed_by, "fire", "bring the flame to the closed parapet"),
        *gusset,
        Step("weld laps", (before_welding,), "quality", "weld every lap with torch and trowel"),
        Step("flame out", ("weld laps",), "fire", "shut the cylinder, burn off the hose"),
        Step("fire watch", ("flame out",), "fire", "watch until the last rule in force is met"),
        Step("close permit", ("fire watch",), "fire", "sign the hot-work permit off"),
    )


_CORNER_CLOSING = _closing(("press laps", "fill corner"), (_GUSSET,))
# An inside corner doubles up on the field, an outside corner on the parapet top.
_INSIDE = _corner(before_top=("first sheet",), before_bottom=("trim", "bond top"))
_OUTSIDE = _corner(before_top=("trim",), before_bottom=("bond top",))

# The order of the valves and the regulator that comes off an idle cylinder: CRCA Roofing Reference
# Manual, 1.3.10. A cap over every valve without a regulator, and a cylinder secured upright:
# O. Reg. 213/91 (Ontario), section 42. The place: CRCA, 1.3.7. That the burner valve is shut before
# the regulator comes off: common practice, no source.
_GAS = (
    Step(
        "close cylinder valve",
        (),
        "fire",
        "shut the gas off at the cylinder while the torch still burns",
    ),
    Step(
        "burn off hose",
        ("close cylinder valve",),
        "fire",
        "let the flame use up the gas in regulator and hose until it goes out by itself",
    ),
    # Fire: shut first, it locks gas under pressure into the hose.
    Step("close burner valve", ("burn off hose",), "fire", "shut the torch once no gas is left"),
    Step(
        "take off regulator",
        ("close burner valve",),
        "fire",
        "unscrew the regulator: it does not stay on a cylinder that is not in use",
    ),
    Step("cap cylinder", ("take off regulator",), "fire", "cover the cylinder valve with its cap"),
    Step(
        "put cylinder away",
        ("cap cylinder",),
        "fire",
        "stand it upright and secured in its place, in the shade, away from what can burn",
    ),
)

_GRAPHS: Mapping[str, tuple[Step, ...]] = {
    "wall": (*_OPENING, *_WALL, *_closing(("press laps",))),
    "inside corner": (*_OPENING, *_INSIDE, *_CORNER_CLOSING),
    "outside corner": (*_OPENING, *_OUTSIDE, *_CORNER_CLOSING),
    "gas shut-down": _GAS,
}


def graph(job: str) -> tuple[Step, ...]:
    """The steps of a job in one valid order. Raises InputError for a job that is none of ours."""
    if job not in _GRAPHS:
        raise InputError("job", job, Choice(JOBS).describe())
    return _GRAPHS[job]
