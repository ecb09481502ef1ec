"""To-scale figures as SVG: parapet section, wall elevation, roof plan, flat pattern, timeline.

Pure: plain data in, one ``<svg>`` string out. docs/drawings.md describes every kind.
"""

from trainer.drawing.palette import fixed_colours
from trainer.drawing.registry import KINDS, draw, kind_of

__all__ = ["KINDS", "draw", "fixed_colours", "kind_of"]
