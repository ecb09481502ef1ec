"""Every kind of action, by name."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.installation import (
    acts_check,
    acts_corner,
    acts_crew,
    acts_flame,
    acts_prepare,
    acts_protect,
    acts_sheets,
)
from trainer.installation.act import Act

ACTIONS: Mapping[str, Act] = {
    act.name: act
    for group in (
        acts_check,
        acts_prepare,
        acts_protect,
        acts_sheets,
        acts_corner,
        acts_flame,
        acts_crew,
    )
    for act in group.ACTS
}
"""What one person, or two, can do; what concerns everybody is in FOR_ALL, and done in ``run``."""

FOR_ALL = ("wait", "stop", "alarm", "leave")
