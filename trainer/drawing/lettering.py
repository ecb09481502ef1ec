"""How wide words are, before any browser has seen them."""

from __future__ import annotations

from functools import lru_cache
from unicodedata import category, east_asian_width

FACE = "Arial,Helvetica,Roboto,'Noto Sans',sans-serif"
SIZE = 13.0
SMALL = 12.0
LINE = 1.25
"""Line height as a multiple of the letter size."""

ASCENT, DESCENT = 1.02, 0.28
"""How far letters reach over and under the line they stand on, in ems."""

# Advance widths in thousandths of an em, rounded up to twelves: of each letter the wider of
# Liberation Sans 2 (as wide as Arial and Helvetica) and Noto Sans 2 (a little wider than Roboto),
# read from the fonts' own tables.
_LETTERS: dict[int, str] = {
    168: "⁄",
    228: "'",
    240: "′",
    264: "ijlł",
    288: " \u00a0!,.:;·ìíîï",
    336: "[]()-`",
    348: "IÌÍÎÏf",
    360: "²³",
    372: "t/\\",
    384: "ť•{}",
    408: '"″',
    420: "rř",
    432: "°",
    504: "Jcszçćśźżčšž",
    516: "vyýÿ",
    540: "xk",
    552: "≥≤*|",
    564: "?L_–aàáâãäåąeèéêëęě",
    576: "$0123456789^",
    588: "+<=>~×",
    612: "oòóôõöőFTZø",
    624: "bdgpqďhnuñùúûüńňůű",
    636: "ß",
    648: "#",
    672: "ABEKPSVXYÀÁÂÃÄÅÈÉÊËÝ",
    732: "CRÇDUÙÚÛÜ&",
    744: "H",
    768: "NÑ",
    780: "G",
    792: "OQÒÓÔÕÖw",
    840: "½¼¾",
    900: "%æ",
    912: "M",
    936: "m",
    948: "Wœ",
    1008: "—…",
    1020: "@",
}
_WIDTHS = {letter: width for width, letters in _LETTERS.items() for letter in letters}
_OTHER = 640


@lru_cache(maxsize=4096)
def text_width(text: str, size: float = SIZE) -> float:
    """The width of ``text`` in user units, rather too wide than too narrow."""
    return sum([_WIDTHS.get(letter) or _unlisted(letter) for letter in text]) * size / 1000


def _unlisted(letter: str) -> int:
    if category(letter) in ("Mn", "Me", "Cf"):
        return 0
    return 1000 if east_asian_width(letter) in ("W", "F") else _OTHER


@lru_cache(maxsize=2048)
def wrapped(text: str, room: float, size: float = SIZE) -> tuple[str, ...]:
    """``text`` broken at spaces into lines no wider than ``room`` where a word allows it."""
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if line and text_width(longer, size) > room:
            lines.append(line)
            line = word
        else:
            line = longer
    return (*lines, line)


@lru_cache(maxsize=4096)
def measured(text: str, room: float, size: float) -> tuple[tuple[str, ...], float, float]:
    """``text`` in lines no wider than ``room``, and the width and height they take."""
    lines = wrapped(text, room, size)
    wide = max([text_width(line, size) for line in lines])
    return lines, wide, text_height(len(lines), size)


def text_height(lines: int, size: float = SIZE) -> float:
    """The height of so many lines, from the top of the first to the foot of the last."""
    return size * (LINE * (lines - 1) + ASCENT + DESCENT)
