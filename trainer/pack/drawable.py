"""Can what the families promise be drawn? A few draws of each, told by file and line where not.

Reading the pack tells whether its files fit together; this tells whether anything comes of them. It
costs a thousand times as much, so it stands apart.
"""

from __future__ import annotations

from collections.abc import Iterator

from trainer.engine.spec import Family
from trainer.engine.trial import FigureCheck, trial_flaws
from trainer.pack.agreement import Files, Read
from trainer.pack.positions import Problem


def deep_problems(files: Files, figure_check: FigureCheck | None = None) -> list[Problem]:
    """What is wrong with the newest version of every family, drawn under the book's own rules.

    ``figure_check`` draws the figures of a scenario, which the pack itself cannot.
    """
    if files.book is None:
        return []
    rules = files.book.in_force()
    return [
        read.problem(flaw.path, flaw.message)
        for read in _newest(files)
        for flaw in trial_flaws(read.made, rules, figure_check)
    ]


def _newest(files: Files) -> Iterator[Read[Family]]:
    newest: dict[str, int] = {}
    for read in files.families:
        newest[read.made.id] = max(read.made.version, newest.get(read.made.id, 0))
    return (read for read in files.families if read.made.version == newest[read.made.id])
