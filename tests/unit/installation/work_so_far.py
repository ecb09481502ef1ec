"""Pieces of work that many tests begin with: marks, strips, sheets, a corner, the torch."""

from tests.unit.installation.small_jobs import do

MARK = [do("snap", wall="A", distance=160), do("set out", wall="A", laps=[900, 1800], lap_mm=100)]
CUT = do("cut", strips=3, roll="r1")
LIGHT = do("light", wall="A", at=1400, off=7700)
LAY = [*MARK, CUT, do("lay", wall="A", sheet=0), do("lay", wall="A", sheet=1)]
CORNER = [
    do("cut", strips=2, roll="r1"), do("lay corner", corner=0, number=1),
    do("roll corner", corner=0, number=1), do("trim", corner=0),
    do("lay corner", corner=0, number=2), do("roll corner", corner=0, number=2),
]  # fmt: skip
MELTER = do("light", tool="melter", wall="A", at=1400, off=7700)
SITE = {
    "openings": [{"id": "vent", "wall": "A", "at_mm": 700, "off_mm": 900, "what": "vent"}],
    "loose": [{"id": "bags", "wall": "A", "at_mm": 700, "off_mm": 2900, "what": "bags"}],
    "lunch": {"from_at": "07:30", "by": "12:30", "minutes": 30},
    "rolls": [{"id": "r1", "cold": True}],
}
