"""The reader of ``scenarios/demo``: an invented site, one file per subject."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from trainer.pack.content import checked
from trainer.pack.family_schema import ID, TEXT, block
from trainer.pack.schema import Shape

_NUMBER = {"type": "number"}
_WHOLE = {"type": "integer", "minimum": 0}
_PERSON = block(
    {
        "name": TEXT,
        "sign_in": ID,
        "roles": {"type": "array", "items": ID, "minItems": 1},
        "crew": {"type": "string"},
        "length_unit": {"enum": ["mm", "in"]},
        "temperature_unit": {"enum": ["c", "f"]},
    },
    "name", "sign_in", "roles", "crew",
)  # fmt: skip
_PEOPLE = Shape(
    block(
        {
            "version": _WHOLE,
            "site": TEXT,
            "time_zone": TEXT,
            "people": {"type": "array", "items": _PERSON, "minItems": 1},
        },
        "version", "site", "time_zone", "people",
    )
)  # fmt: skip
_WORKER = block(
    {
        "sign_in": ID,
        "began": _WHOLE,
        "stopped": _WHOLE,
        "days": {"type": "integer", "minimum": 1, "maximum": 5},
        "scenarios": {"type": "integer", "minimum": 1, "maximum": 10},
        "skill": _NUMBER,
        "gain": _NUMBER,
        "weak": {"type": "array", "items": ID},
    },
    "sign_in", "began", "days", "scenarios", "skill", "gain",
)  # fmt: skip
_PRACTICE = Shape(
    block(
        {"version": _WHOLE, "weeks": _WHOLE, "workers": {"type": "array", "items": _WORKER}},
        "version", "weeks", "workers",
    )
)  # fmt: skip
_INSTALLATION = block(
    {
        "sign_in": ID,
        "job": ID,
        "seed": _WHOLE,
        "days_ago": {"type": "integer", "minimum": 1},
        "purpose": {"enum": ["practise", "prove"]},
        "by": {"enum": ["book", "careless"]},
        "decisions": {"type": "integer", "minimum": 1},
        "slips": {"type": "array", "items": {"type": "object", "required": ["do"]}},
    },
    "sign_in", "job", "seed", "days_ago", "purpose", "by",
)  # fmt: skip
_INSTALLATIONS = Shape(
    block(
        {"version": _WHOLE, "installations": {"type": "array", "items": _INSTALLATION}},
        "version", "installations",
    )
)  # fmt: skip


@dataclass(frozen=True)
class DemoPerson:
    name: str
    sign_in: str
    roles: tuple[str, ...]
    crew: str
    length_unit: str = "mm"
    temperature_unit: str = "c"


@dataclass(frozen=True)
class DemoSite:
    site: str
    time_zone: str
    people: tuple[DemoPerson, ...]


@dataclass(frozen=True)
class DemoWorker:
    """``began`` and ``stopped`` in weeks before today; ``skill`` and weekly ``gain`` in logits."""

    sign_in: str
    began: int
    days: int
    scenarios: int
    skill: float
    gain: float
    stopped: int = 0
    weak: tuple[str, ...] = ()


@dataclass(frozen=True)
class DemoInstallation:
    """A whole installation: ``by`` book or careless, ``decisions`` only the first so many, if any.

    ``slips`` are the first decisions of a kind with fields changed.
    """

    sign_in: str
    job: str
    seed: int
    days_ago: int
    purpose: str
    by: str
    decisions: int | None = None
    slips: tuple[Mapping[str, Any], ...] = ()


def read_people(root: Path) -> DemoSite:
    """The invented site and its people. Raises PackError."""
    data = checked(root / "demo" / "people.yaml", _PEOPLE)
    people = tuple(DemoPerson(**{**p, "roles": tuple(p["roles"])}) for p in data["people"])
    return DemoSite(data["site"], data["time_zone"], people)


def read_practice(root: Path) -> tuple[DemoWorker, ...]:
    """How the invented workers have practised. Raises PackError."""
    data: Any = checked(root / "demo" / "practice.yaml", _PRACTICE)
    return tuple(DemoWorker(**{**w, "weak": tuple(w.get("weak", ()))}) for w in data["workers"])


def read_installations(root: Path) -> tuple[DemoInstallation, ...]:
    """The whole installations of the invented workers. Raises PackError."""
    data: Any = checked(root / "demo" / "installations.yaml", _INSTALLATIONS)
    made = data["installations"]
    return tuple(DemoInstallation(**{**m, "slips": tuple(m.get("slips", ()))}) for m in made)
