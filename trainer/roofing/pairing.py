"""Is every torch watched by somebody who can truly watch it?

One watch to each torch. One watch may stand over several only where each torch is near enough on
foot, on the same level and in view. Walking distances are millimetres.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from trainer.errors import InputError
from trainer.roofing.contract import Calculator, Each, Field, Flag, Nullable, Record, Text, length

Ground = Literal["no watch", "not trained", "other duty", "too far", "other level", "out of view"]


@dataclass(frozen=True)
class Torch:
    """A lit torch and the name of its watch, None for none.

    ``walk_mm`` ≥ 0 is the way on foot from watch to torch; what it, ``same_level`` and ``in_view``
    say counts only where the watch stands over several torches.
    """

    name: str
    watch: str | None
    walk_mm: float
    same_level: bool
    in_view: bool


@dataclass(frozen=True)
class Watcher:
    """Somebody set as fire watch; ``other_duty`` is any work at all beside watching."""

    name: str
    trained: bool
    other_duty: bool


def grounds(torch: Torch, watcher: Watcher | None, shared: bool, limit_mm: float) -> list[Ground]:
    """What is wrong with the watch of one torch, in a fixed order; nothing when it is watched.

    ``shared``: the watcher has other torches too; only then distance, level and view count.
    Sources: New York City Fire Code FC 3504.2.7.1.1; 29 CFR 1915.504(c); IFC 2018, 3504.2.4.
    """
    if watcher is None:
        return ["no watch"]
    holds: dict[Ground, bool] = {
        "not trained": not watcher.trained,
        "other duty": watcher.other_duty,
        "too far": shared and torch.walk_mm > limit_mm,
        "other level": shared and not torch.same_level,
        "out of view": shared and not torch.in_view,
    }
    return [ground for ground, wrong in holds.items() if wrong]


def judge(
    torches: Sequence[Torch], watchers: Sequence[Watcher], limit_mm: float
) -> list[list[Ground]]:
    """The grounds against each torch, in the order of the torches.

    Raises InputError for a name given twice, and for a watch that is not among the watchers.
    """
    _check_names("torches", (torch.name for torch in torches))
    _check_names("watchers", (watcher.name for watcher in watchers))
    by_name = {watcher.name: watcher for watcher in watchers}
    torches_of = Counter(torch.watch for torch in torches)
    _check_watches(torches, list(by_name))
    return [
        grounds(torch, by_name.get(torch.watch or ""), torches_of[torch.watch] > 1, limit_mm)
        for torch in torches
    ]


def _check_names(field: str, names: Iterable[str]) -> None:
    seen: set[str] = set()
    for i, name in enumerate(names):
        if name in seen:
            raise InputError(f"{field}[{i}].name", name, "each name once")
        seen.add(name)


def _check_watches(torches: Sequence[Torch], names: Sequence[str]) -> None:
    for i, torch in enumerate(torches):
        if torch.watch is not None and torch.watch not in names:
            allowed = f"one of the watchers ({', '.join(names) or 'there are none'}), or null"
            raise InputError(f"torches[{i}].watch", torch.watch, allowed)


def _compute(given: dict[str, Any]) -> dict[str, Any]:
    torches = [Torch(**each) for each in given["torches"]]
    watchers = [Watcher(**each) for each in given["watchers"]]
    against = judge(torches, watchers, given["limit_mm"])
    return {
        "ok": not any(against),
        "torches": [
            {"name": torch.name, "ok": not found, "grounds": list(found)}
            for torch, found in zip(torches, against, strict=True)
        ],
    }


_TORCH = Record(
    (
        Field("name", Text(), "which torch this is"),
        Field("watch", Nullable(Text()), "the name of its watch, null for none"),
        Field("walk_mm", length(), "way on foot from watch to torch"),
        Field("same_level", Flag(), "whether the watch stands on the level of the torch"),
        Field("in_view", Flag(), "whether the watch sees the torch and all it could light"),
    )
)
_WATCHER = Record(
    (
        Field("name", Text(), "who watches"),
        Field("trained", Flag(), "trained on the extinguisher and on raising the alarm"),
        Field("other_duty", Flag(), "whether there is anything else to do, the torch included"),
    )
)

PAIRING = Calculator(
    name="pairing",
    summary="whether every lit torch has a fire watch who can truly watch it",
    fields=(
        Field("torches", Each(_TORCH, least=1), "every torch that is lit; each name once"),
        Field("watchers", Each(_WATCHER), "everybody set as fire watch; each name once"),
        Field("limit_mm", length(), "longest way on foot where one watch has several torches"),
    ),
    results={
        "ok": "whether every torch is watched as it must be",
        "torches": "per torch name, ok and grounds: no watch, not trained, other duty, too far, "
        "other level, out of view, in this order",
    },
    sources=(
        "one fire guard to each torch, one to several only within 50 ft on foot, on one level and "
        "in view: New York City Fire Code FC 3504.2.7.1.1",
        "no other duties: 29 CFR 1915.504(c), shipyards",
        "trained in the use of the extinguisher: International Fire Code 2018, 3504.2.3 and "
        "3504.2.4",
    ),
    compute=_compute,
    rules=(
        "Too far, other level and out of view count only for a watch who has several torches.",
        "A way on foot of exactly limit_mm is near enough.",
        "A watch who is not among the watchers is refused; a torch may have none (null).",
    ),
)
