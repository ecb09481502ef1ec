"""The key of the wall at work: only what occurs on it."""

from __future__ import annotations

from trainer.drawing.canvas import Canvas
from trainer.drawing.elevation_signs import STATE_SIGNS
from trainer.drawing.legend import Entry, legend
from trainer.drawing.palette import ACCENT, BAD, FAINT, SOFT
from trainer.drawing.symbols import symbol
from trainer.drawing.work_data import Work
from trainer.drawing.work_finds import SLIT_STATES

NO_RAIL = f'<path d="M-11 0H11" stroke="{BAD}" stroke-width="2.4" stroke-dasharray="14 3 3 3"/>'
MARKED = f'<path d="M-7 -7V7M7 -7V7" stroke="{SOFT}" stroke-width="1" stroke-dasharray="4 3"/>'
ROLLED = f'<path d="M-11 -6H11V6H-11Z" fill="{FAINT}" stroke-width="1.3"/>'
SEALED = '<path d="M-11 0H11" stroke-width="3.4"/>'


def draw_key(canvas: Canvas, work: Work) -> None:
    """Patterns first, then lines and signs."""
    say = canvas.request.say
    patterns = {
        "primed": ("primer", bool(work.primer)),
        "damp": ("damp", bool(work.damp)),
        "dead": ("primer, spoilt", bool(work.spoilt)),
        "loose": ("not rolled yet", any(not sheet.rolled for sheet in work.sheets)),
        "timber": ("burns", any(not fuel.covered for fuel in work.behind)),
    }
    entries = [Entry(say(word), hatch=name) for name, (word, occurs) in patterns.items() if occurs]
    lines = {
        "sheet marked out": (MARKED, bool(work.marks)),
        "laid and rolled": (ROLLED, any(sheet.rolled for sheet in work.sheets)),
        "chalk line": (
            f'<path d="M-11 0H11" stroke="{ACCENT}" stroke-width="1.6"/>',
            work.chalk_mm is not None,
        ),
        "no edge protection": (NO_RAIL, not work.rail),
        "sealed for the night": (SEALED, work.sealed),
    }
    entries += [Entry(say(word), mark=mark) for word, (mark, occurs) in lines.items() if occurs]
    states = {lap.state for lap in work.laps}
    states |= {SLIT_STATES[corner.slit] for corner in work.corners if corner.slit in SLIT_STATES}
    entries += [Entry(say(word), mark=sign) for word, sign in STATE_SIGNS.items() if word in states]
    for word in sorted({_word(hole.covered) for hole in work.openings}, reverse=True):
        entries.append(Entry(say(word), mark=symbol(word, (0, 0), size=0.7)))
    legend(canvas, entries)


def _word(covered: bool) -> str:
    return "opening, covered" if covered else "opening, open"
