"""A stored attempt as its page shows it: worded, drawn, with the verdicts that may be seen."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from trainer.engine.explain import Telling
from trainer.engine.measures import say_clock, say_duration
from trainer.engine.solve import Decision, Scenario
from trainer.services.attempts import stored_mark, waiting
from trainer.services.pages import DecisionPage, NumberInput, Row, ScenarioPage, Verdict
from trainer.services.parts import Parts
from trainer.services.permissions import require
from trainer.services.person import SignedIn
from trainer.services.scenarios import Put, figure_of, language_of
from trainer.services.speech import choice_in_words, speaker
from trainer.services.standing import Standing, own_standing, standing_of


def scenario_page(
    parts: Parts, person: SignedIn, attempt_id: str, answered: str = ""
) -> ScenarioPage:
    """The person's own scenario as it stands now. Raises NotFound, NotAllowed.

    With ``answered`` the drawing is the one that answers this decision, once it is made.
    """
    require(person, "scenario.play")
    return _Showing(person, own_standing(parts, person, attempt_id)).page(answered)


def read_page(parts: Parts, reader: SignedIn, owner_id: int, attempt_id: str) -> ScenarioPage:
    """A scenario as somebody answered it, told to ``reader``, who may see it: nothing to answer.

    Raises NotFound.
    """
    page = _Showing(reader, standing_of(parts, owner_id, attempt_id)).page()
    return replace(page, current=None)


class _Showing:
    """One attempt, told to one person."""

    def __init__(self, person: SignedIn, standing: Standing) -> None:
        self.shelf, self.person, self.place = standing.shelf, person, standing.place
        self.attempt = standing.attempt
        self.answers = {answer.decision: answer for answer in standing.answers}
        self.scenario: Scenario = self.shelf.of(self.attempt)
        self.telling: Telling = self.shelf.telling(self.scenario, person)
        self.current = waiting(self.scenario, self.answers)
        self.say: Callable[[str], str] = speaker(language_of(person))
        # In a fixed form nothing is said until the whole form is done.
        self.tells = not self.place.set or self.place.closed

    def page(self, answered: str = "") -> ScenarioPage:
        unit = self.shelf.pack.unit(self.attempt.unit).words_in(language_of(self.person))
        decisions = tuple(self._decision(d) for d in self.scenario.decisions)
        waits = self.current.id if self.current else ""
        return ScenarioPage(
            attempt=self.attempt.public_id,
            purpose=self.attempt.purpose,
            unit=self.attempt.unit,
            unit_name=unit.name,
            title=self.telling.title,
            situation=self.telling.situation,
            figure=self._figure("", answered) if answered in self.answers else self._figure(waits),
            legend=(),
            decisions=decisions,
            current=next((d for d in decisions if d.id == waits), None),
            number=self.place.number,
            of=self.place.of,
            set=self.place.set,
            sheet=self._sheet(),
            profile=self.shelf.pack.book.profile(self.attempt.profile).name,
            caution=" ".join(self.telling.caution),
            notice=practice_only_notice(self.say) if self.telling.family.practice_only else "",
            family=self.attempt.family,
            example=self._example(),
        )

    def _example(self) -> tuple[str, ...]:
        """The example worked by hand, as help while a decision waits; there is none in a form."""
        family = self.telling.family
        is_newest = self.shelf.pack.families.get(family.id) is family
        if self.place.set or self.current is None or not is_newest:
            return ()
        return self.telling.words.worked if self.shelf.example(family) else ()

    def _sheet(self) -> str:
        """Family and version; the seed, from which all answers follow, only once all are made."""
        name = f"{self.attempt.family} v{self.attempt.family_version}"
        over = self.current is None and self.tells
        return f"{name}, {self.attempt.seed}" if over else name

    def _figure(self, waits: str, answered: str = "") -> str:
        told = self._told_up_to(answered) if self.tells else ()
        live = bool(self.current and waits and self.current.kind in ("mark", "find"))
        states = self._states(answered) if answered and self.tells else {}
        yours = self._where_it_was_put(answered) if answered and self.tells else None
        return figure_of(
            self.telling, answered=told, waiting=waits, live=live, states=states,
            yours=yours,
            name=f"fig-{self.attempt.public_id}",
        )  # fmt: skip

    def _where_it_was_put(self, decision_id: str) -> Put | None:
        """Where the worker put what was to be placed, and whether it may stand there."""
        decision, answer = self.scenario.decision(decision_id), self.answers[decision_id]
        if decision.kind != "place":
            return None
        chosen = decision.option(answer.response.get("row", ""))
        at = chosen.at if chosen else [answer.response[f"{a}_mm"] for a in decision.axes]
        moved = self.scenario.live.get(decision_id, {})
        return Put(tuple(at or ()), decision.axes, answer.right, self.say("you"), moved)

    def _told_up_to(self, answered: str) -> tuple[str, ...]:
        """The decisions whose answers the drawing shows: up to ``answered``, else all made."""
        made = [d.id for d in self.scenario.decisions if d.id in self.answers]
        return tuple(made[: made.index(answered) + 1] if answered in made else made)

    def _states(self, decision_id: str) -> dict[str, str]:
        decision, answer = self.scenario.decision(decision_id), self.answers[decision_id]
        if decision.kind == "mark":
            chosen = {answer.response["row"]: "chosen" if answer.right else "wrong"}
            return {**chosen, decision.answer: "right"}
        if decision.kind == "find":
            chosen = answer.response["rows"]
            meant = {part: "right" if part in chosen else "missed" for part in decision.answer}
            return {**dict.fromkeys(chosen, "wrong"), **meant}
        return {}

    def _decision(self, decision: Decision) -> DecisionPage:
        """The decision in words; what can be answered only where an answer is waited for."""
        waits = decision is self.current
        return DecisionPage(
            id=decision.id,
            kind=decision.kind,
            critical=decision.critical,
            prompt=self.telling.prompt(decision),
            rows=tuple(Row(*row) for row in self.telling.rows(decision)) if waits else (),
            number=self._number(decision) if waits else None,
            axes=decision.axes,
            verdict=self._verdict(decision),
        )

    def _number(self, decision: Decision) -> NumberInput | None:
        if decision.kind not in ("measure", "time"):
            return None
        units = self.telling.units
        if decision.kind == "time":
            unit, within = "", say_duration(decision.tolerance)
        else:
            unit = units.sign(decision.unit)
            within = units.say_amount(decision.tolerance, _difference(decision.unit))
        said = self.say("within %(tolerance)s counts") % {"tolerance": within.strip()}
        start = self._first_time() if decision.kind == "time" else ""
        step = 0.1 if unit == "m" else None
        return NumberInput(unit, said if decision.tolerance else "", step=step, start=start)

    def _first_time(self) -> str:
        """The earliest time of day that the scenario names: near it the counting begins."""
        named = (at for name, at in self.scenario.values.items() if name.endswith("_at"))
        times = [at for at in named if isinstance(at, int | float) and 0 <= at < 24 * 60]
        return say_clock(min(times)) if times else ""

    def _verdict(self, decision: Decision) -> Verdict | None:
        answer = self.answers.get(decision.id)
        if answer is None or not self.tells:
            return None
        told = self.telling.explain(decision, answer.response, stored_mark(answer))
        return Verdict(
            right=answer.right,
            critical=answer.critical,
            headline=self.say("Right, because") if answer.right else self.say("Not yet, because"),
            because=" ".join(told.because),
            chosen=choice_in_words(told.chosen, self.say),
            correct=choice_in_words(told.correct, self.say),
            sums=tuple(map(_unbroken, told.sums)),
            leads_to=" ".join(told.leads_to),
            caution=" ".join(told.caution),
            rules=self.shelf.sentences(self.telling.family.rules.values(), self.telling.units),
        )


def _difference(unit: str) -> str:
    """The unit of a difference: of temperatures K, or the worker's like of it."""
    return "k" if unit == "c" else unit


def practice_only_notice(say: Callable[[str], str]) -> str:
    """What is said of a scenario whose truth rests on practice alone."""
    return say(
        "This rests on the practice of the trade; no published rule on it was read."
        " It is for practice only."
    )


_BEFORE_UNIT = re.compile(r"(?<=\d) (?=(?:mm|m|in|ft|h|min|cm²|%|°C|°F)\b)")


def _unbroken(text: str) -> str:
    """The text with numbers and their units on one line: a sum is read in pieces otherwise."""
    return _BEFORE_UNIT.sub("\N{NO-BREAK SPACE}", text)
