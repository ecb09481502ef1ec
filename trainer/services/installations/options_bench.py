"""Where options are made: the job, its state, and who is free to do something."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from trainer.installation.act import Act
from trainer.installation.actions import ACTIONS
from trainer.installation.job import Hand, Job
from trainer.installation.run import cannot
from trainer.installation.state import State
from trainer.roofing.contract import Number
from trainer.services.installations.options_fields import Entry, Option
from trainer.services.installations.words import Voice
from trainer.services.installations.words_decisions import offer
from trainer.services.pages import Row

_ASSUMED = {"distance": 10_000, "reach": 100}
"""Stands in for what has no obvious value, to ask nature whether the rest is possible."""


@dataclass(frozen=True)
class Bench:
    """One person's view of one state."""

    voice: Voice
    job: Job
    state: State

    @cached_property
    def free(self) -> tuple[Hand, ...]:
        """Who can be given something: idle people first, then those on watch."""
        people = self.state.people
        free = [hand for hand in self.job.crew if people[hand.id].free]
        return tuple(sorted(free, key=lambda hand: people[hand.id].watching))

    def option(
        self,
        do: str,
        fixed: Mapping[str, Any] | None = None,
        entries: Sequence[Entry] = (),
        *,
        id: str = "",
        label: str = "",
        minutes: str = "",
    ) -> Option:
        """An option, with whoever can do it; or with nature's reason why nobody can."""
        act = ACTIONS[do]
        named = dict(fixed or {})
        numbers = {field.name for field in act.fields if isinstance(field.kind, Number)}
        filled = {e.name: _value(e, e.name in numbers) for e in entries if e.raw}
        task = {**_ASSUMED, **named, **filled, "do": do}
        who, reason = self._who(task)
        return Option(
            id=(id or do).replace(" ", "-"),
            act=do,
            label=label or offer(self.voice, self.job, self.state, task),
            minutes=minutes or self._minutes(act, task, any(e.name == "through" for e in entries)),
            fixed=tuple(_carried(act, named)),
            entries=tuple(entries),
            who=who,
            helpers=self._helpers() if act.two and who else (),
            **self._as_last_time(do, [row.id for row in who]),
            cannot=reason,
        )

    def _as_last_time(self, do: str, able: Sequence[str]) -> dict[str, str]:
        """Who is chosen beforehand: who did the like last, with the same helper; else the first."""
        last = self._did_last.get(do, {})
        idle = {hand.id for hand in self.free if not self.state.people[hand.id].watching}
        by, helper = str(last.get("who", "")), str(last.get("with") or "")
        if by not in able or by not in idle:
            return {"by": able[0] if able else ""}
        return {"by": by, "helper": helper if helper in idle else ""}

    @cached_property
    def _did_last(self) -> dict[str, Mapping[str, Any]]:
        """The last entry of the log for each kind of work that was done."""
        return {entry["do"]: entry for entry in self.state.log if entry["kind"] == "done"}

    def _who(self, task: Mapping[str, Any]) -> tuple[tuple[Row, ...], str]:
        able, reason = [], ""
        for hand in self.free:
            refused = cannot(self.job, self.state, {**task, "who": hand.id})
            reason = reason or refused
            if not refused:
                able.append(Row(hand.id, self._named(hand)))
        if able:
            return tuple(able), ""
        return (), self.voice.in_own_units(self.voice.say(reason)) if reason else self._all_busy()

    def _named(self, hand: Hand) -> str:
        if not self.state.people[hand.id].watching:
            return hand.name
        return self.voice.say("%(name)s, who then leaves the watch") % {"name": hand.name}

    def _all_busy(self) -> str:
        return self.voice.say("Nobody is free.")

    def _helpers(self) -> tuple[Row, ...]:
        alone = Row("", self.voice.say("Nobody"))
        return (alone, *(Row(hand.id, self._named(hand)) for hand in self.free))

    def _minutes(self, act: Act, task: dict[str, Any], row: bool) -> str:
        say, job = self.voice.say, self.job
        if act.name == "prime":
            return say("%(n)d min a metre") % {"n": job.minutes["prime a metre"]}
        if act.name in ("cut", "preheat"):
            name = "cut a strip" if act.name == "cut" else "preheat a strip"
            return say("%(n)d min a strip") % {"n": job.minutes[name]}
        if act.name == "lay":
            both = {"one": job.minutes["lay"], "two": job.minutes["lay together"]}
            if not row:
                return say("%(one)d min, %(two)d for two") % both
            return say("%(one)d min each, %(two)d for two") % both
        minutes = act.minutes(job, self.state, task)
        if not minutes:
            return say("at once")
        said = self.voice.lasting(minutes)
        return say("%(time)s each") % {"time": said} if row else said


def _carried(act: Act, named: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """What goes with the form as it is; a length says that it is in millimetres."""
    units = {field.name: getattr(field.kind, "unit", "") for field in act.fields}
    for name, value in named.items():
        yield name, str(value)
        if units.get(name) == "mm":
            yield f"{name}-filled", f"{value}|{value}"


def _value(entry: Entry, is_number: bool) -> Any:
    """What a field is filled with, as the core takes it; choices of numbers hold texts."""
    if entry.kind == "lengths":
        return list(entry.raw)
    return int(entry.raw[0]) if is_number else entry.raw[0]
