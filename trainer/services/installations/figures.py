"""The drawings of an installation: a wall, the roof, the day."""

from trainer.services.installations.figures_day import (
    Block,
    Day,
    Found,
    Mark,
    Track,
    blocks_of,
    day_figure,
    day_of,
)
from trainer.services.installations.figures_plan import plan_figure
from trainer.services.installations.figures_wall import stretches, wall_figure

__all__ = [
    "Block",
    "Day",
    "Found",
    "Mark",
    "Track",
    "blocks_of",
    "day_figure",
    "day_of",
    "plan_figure",
    "stretches",
    "wall_figure",
]
