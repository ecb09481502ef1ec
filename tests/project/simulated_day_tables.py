"""The tables of docs/simulated-day.md, made from the actions and the rule book.

``python -m tests.project.simulated_day_tables`` puts them into the page.
"""

from __future__ import annotations

from pathlib import Path

from trainer.installation.act import Act
from trainer.installation.actions import ACTIONS
from trainer.installation.acts_crew import ALL_CLEAR
from trainer.installation.job_fields import MINUTES
from trainer.installation.limits import SUBJECTS
from trainer.pack.pack import load_pack

PAGE = Path(__file__).parents[2] / "docs" / "simulated-day.md"
_MINUTES = {
    "prime": f"{MINUTES['prime a metre']} a metre",
    "cut": f"{MINUTES['cut a strip']} a strip",
    "preheat": f"{MINUTES['preheat a strip']} a strip",
    "lay": f"{MINUTES['lay']}; {MINUTES['lay together']} for two",
    "lay corner": str(MINUTES["corner sheet"]),
    "roll corner": str(MINUTES["roll"]),
    "strip corner": str(MINUTES["strip"]),
    "lunch": "as the job says",
    "watch": "until told otherwise",
    "end watch": "0",
}


def tables() -> dict[str, str]:
    """Every made part of the page by its name."""
    actions = [
        f"| {act.name} | {act.place or 'crew'} | {_minutes(act)} |"
        for act in ACTIONS.values()
        if act.name != ALL_CLEAR
    ]
    book = load_pack().book
    subjects = [
        f"| {book.subject(name).name} | {book.subject(name).severity} |"
        for name in sorted(SUBJECTS, key=lambda name: (book.subject(name).severity, name))
    ]
    return {
        "actions": "\n".join(("| action | at | minutes |", "|---|---|---|", *actions)),
        "subjects": "\n".join(("| rule on | severity |", "|---|---|", *subjects)),
    }


def _minutes(act: Act) -> str:
    return _MINUTES.get(act.name) or str(MINUTES[act.name])


def filled(page: str) -> str:
    """The page with every made part as it must be."""
    for name, made in tables().items():
        start, end = f"<!-- made: {name} -->\n", "<!-- /made -->"
        before, _, rest = page.partition(start)
        page = f"{before}{start}{made}\n{end}{rest.partition(end)[2]}"
    return page


if __name__ == "__main__":
    PAGE.write_text(filled(PAGE.read_text("utf-8")), "utf-8")
