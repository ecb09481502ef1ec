"""Small drawings for page tests, made to the conventions of the drawing package."""

from __future__ import annotations

HEAD = (
    '<svg xmlns="http://www.w3.org/2000/svg" class="drawing" viewBox="0 0 358 {height}" '
    'role="{role}" '
    'aria-labelledby="figure-title figure-desc" fill="none" stroke="var(--ink,#14171a)" '
    'font-family="Arial,sans-serif" font-size="13">'
    '<title id="figure-title">{title}</title><desc id="figure-desc">{desc}</desc>'
)


def elevation(movable: bool = False, answered: bool = False) -> str:
    """A parapet elevation with three sheets and a chalk line; the third sheet may be moved."""
    role = "group" if movable else "img"
    body = HEAD.format(
        height=250,
        role=role,
        title="Parapet elevation",
        desc="Three flashing sheets side by side on a parapet; field laps end below them.",
    )
    body += _hatch() + '<path d="M8 200H350" stroke-width="1.7"/>'
    body += '<path d="M8 60H350" stroke-width="1.7"/>'
    for x in (20, 122):
        body += (
            f'<path d="M{x} 60V200h112V60Z"/><path d="M{x + 102} 60V200" stroke-dasharray="5 3"/>'
        )
    for x in (60, 196, 300):
        body += f'<path d="M{x} 200v28h10v-28" fill="url(#lines)"/>'
    body += _label(8, 244, "field laps") + _dimension(122, 234, 46, "1 000")
    if movable:
        body += (
            '<g class="movable" data-axis="x" data-min="1800" data-max="2600" data-step="10" '
            'data-per-px="10" data-zero-x="20" data-value="2040" tabindex="0" '
            'transform="translate(224 0)" data-part="third" aria-orientation="horizontal" '
            'role="slider" aria-label="Left edge of the third sheet" aria-valuemin="1800" '
            'aria-valuemax="2600" aria-valuenow="2040">'
            '<path d="M0 60V200h112V60Z" fill="var(--wash,#e4e9f7)" fill-opacity=".7" '
            'stroke="var(--accent,#1b3a9c)" stroke-width="2"/></g>'
        )
    if answered:
        body += _dimension(196, 236, 222, "clear 30") + '<path d="M224 60V200" stroke-width="3"/>'
    return body + "</svg>"


def plan(live: bool = False) -> str:
    """A roof plan with four things near a torch, each a part."""
    body = HEAD.format(
        height=280,
        role="group" if live else "img",
        title="Roof plan at the corner",
        desc="A torch stands near a corner; around it an open lap, a primer can and a cylinder.",
    )
    body += _hatch() + '<path d="M20 20H338V44H44V260H20Z" fill="url(#lines)"/>'
    marks = {"lap": (110, 90), "can": (220, 120), "cylinder": (290, 210), "corner": (62, 62)}
    words = {"lap": "lap", "can": "primer", "cylinder": "gas", "corner": "corner"}
    for name, (x, y) in marks.items():
        attributes = f' class="part" data-part="{name}"' + (
            f' tabindex="0" role="button" aria-label="{words[name]}"' if live else ""
        )
        body += (
            f'<g{attributes}><rect class="hit" x="{x - 26}" y="{y - 22}" width="52" height="44" '
            f'fill="var(--paper,#fdfdfb)"/>{_label(x - 22, y + 5, words[name])}</g>'
        )
    return body + _dimension(62, 110, 250, "1 240") + "</svg>"


def timeline() -> str:
    """Primer rolled on at 10:20, three hours of a day."""
    body = HEAD.format(
        height=120,
        role="img",
        title="The morning so far",
        desc="Primer was rolled on at 10:20; the line runs from 10 to 14 o'clock.",
    )
    body += '<path d="M20 70H338" stroke-width="1.7"/>'
    for hour in range(10, 15):
        x = 20 + (hour - 10) * 79
        body += f'<path d="M{x} 62v16"/>' + _label(x - 8, 98, str(hour))
    return (
        body + '<path d="M46 40v30" stroke-width="3"/>' + _label(30, 32, "primed 10:20") + "</svg>"
    )


def section(units: list[tuple[str, str]]) -> str:
    """The way in: a parapet section whose parts are links to units."""
    body = HEAD.format(
        height=330,
        role="group",
        title="Parapet section",
        desc="A cut through roof deck and parapet with every layer; each leads to its unit.",
    )
    body += _hatch() + '<path d="M230 20h100v290H230Z" fill="url(#lines)" stroke-width="1.7"/>'
    for place, (unit, name) in enumerate(units):
        y = 30 + place * 36
        body += (
            f'<a href="#unit-{unit}" class="part" data-part="{unit}" aria-label="{name}">'
            f'<rect class="hit" x="12" y="{y}" width="206" height="32" '
            f'fill="var(--paper,#fdfdfb)"/>'
            f"{_label(20, y + 21, f'{place + 1}  {name}')}</a>"
        )
    return body + "</svg>"


def _hatch() -> str:
    return (
        '<defs><pattern id="lines" width="7" height="7" patternUnits="userSpaceOnUse" '
        'patternTransform="rotate(45)"><path d="M0 0V7" stroke="var(--ink,#14171a)"/></pattern>'
        "</defs>"
    )


def _label(x: float, y: float, text: str) -> str:
    return f'<text x="{x}" y="{y}" fill="var(--ink,#14171a)" stroke="none">{text}</text>'


def _dimension(left: float, right: float, y: float, text: str) -> str:
    line = f'<path d="M{left} {y}H{right}M{left - 4} {y + 4}l8-8M{right - 4} {y + 4}l8-8"/>'
    return line + _label((left + right) / 2 - 16, y - 6, text)
