"""Words for a scenario: the situation, the question, and why an answer is right or not yet.

Everything is said in one language and in the worker's own units, from the values of the scenario.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from trainer.engine.expression import Scope
from trainer.engine.mark import Mark, Response
from trainer.engine.measures import Units, say_clock
from trainer.engine.scenario import Decision, Scenario
from trainer.engine.spec import DecisionWords, Family, OptionWords, Words
from trainer.engine.template import Passage

_EMPTY = Passage()


NOTHING = "—"
"""An empty choice, for a page to word."""


@dataclass(frozen=True)
class Explanation:
    """Why a response is right or not: texts ready to show, the sum line by line."""

    because: tuple[str, ...]
    chosen: str
    correct: str
    sums: tuple[str, ...]
    leads_to: tuple[str, ...]
    caution: tuple[str, ...]


@dataclass(frozen=True)
class Telling:
    """One scenario told in one language and one system of units."""

    family: Family
    scenario: Scenario
    language: str = "en"
    units: Units = field(default_factory=Units)

    @cached_property
    def _scope(self) -> Scope:
        own = {
            name: {**rule, "own": self.units.own_value(rule)}
            for name, rule in self.scenario.rules.items()
        }
        return {**self.scenario.scope(), **own, "word": self.word, "join": self.join}

    def word(self, sort: str, key: str) -> str:
        """A shared word: ``word('step', 'roll')``. Raises KeyError."""
        return (self.words.terms or {})[sort][key]

    def join(self, sort: str, keys: Iterable[str]) -> str:
        """Several shared words with commas between."""
        return ", ".join(self.word(sort, key) for key in keys)

    @cached_property
    def words(self) -> Words:
        return self.family.words_in(self.language)

    @property
    def title(self) -> str:
        return self.words.title

    def say(self, passage: Passage, **own: Any) -> tuple[str, ...]:
        """The sentences of a passage; ``own`` are names it may use besides the scenario's."""
        return passage.say({**self._scope, **own} if own else self._scope, self.units)

    @property
    def situation(self) -> tuple[str, ...]:
        return self.say(self.words.situation)

    @property
    def look(self) -> str:
        return " ".join(self.say(self.words.look))

    @property
    def caution(self) -> tuple[str, ...]:
        return self.say(self.words.caution)

    def prompt(self, decision: Decision) -> str:
        return " ".join(self.say(self._of(decision).prompt))

    def rows(self, decision: Decision) -> tuple[tuple[str, str], ...]:
        """Ids and full sentences of what can be answered, in the order they are shown."""
        if decision.parts:
            return tuple((part["id"], self.part(decision, part)) for part in decision.parts)
        if decision.kind in ("measure", "time"):
            return ()
        return tuple((o.id, self.option(decision, o.id)) for o in decision.options)

    def part(self, decision: Decision, part: Mapping[str, Any]) -> str:
        words = self._of(decision)
        own = words.options.get(part["id"])
        template = own.text if own and own.text.source else words.part
        return template.say({**self._scope, "part": part}, self.units)

    def option(self, decision: Decision, option_id: str) -> str:
        return self._of(decision).options[option_id].text.say(self._scope, self.units)

    def figure(self, answered: Collection[str] = (), waiting: str = "") -> dict[str, Any]:
        """The figure's data with its labels in words.

        ``answered`` decisions show what they came to; the ``waiting`` one brings what it moves.
        """
        figure = {**self.scenario.figure, **self.scenario.live.get(waiting, {})}
        figure["title"], figure["desc"] = self.title, self.look
        if not waiting:  # what an answer shows would give away the decisions after it
            figure["after"] = self._gained(figure, answered)
        labelled: dict[str, Any] = self._labelled(figure)
        return labelled

    def _gained(self, figure: dict[str, Any], answered: Collection[str]) -> list[Any]:
        """Puts into ``figure`` what answered decisions add to it; returns their overlays."""
        overlays: list[Any] = []
        for decision_id, gained in self.scenario.after.items():
            if decision_id in answered:
                if "figure" in gained:  # another drawing answers: what stood on this one goes
                    another = self._another(gained["figure"])
                    kept = {key: figure[key] for key in ("title", "desc")}
                    figure.clear()
                    figure |= {**another, **kept}
                    overlays = []
                figure |= {k: v for k, v in gained.items() if k not in ("overlays", "figure")}
                overlays += gained.get("overlays", [])
        return overlays

    def _another(self, figure: Mapping[str, Any]) -> Mapping[str, Any]:
        """A drawing of its own, or without a ``kind`` the family's drawing but for these fields."""
        return figure if "kind" in figure else {**self.scenario.figure, **figure}

    def explain(self, decision: Decision, response: Response, mark: Mark) -> Explanation:
        """Why ``response`` came out as ``mark`` says."""
        words = self._of(decision)
        own = self._own_words(words, decision, mark) or OptionWords.none()
        names = self._names(decision, response, mark)
        return Explanation(
            because=self.say(_because(words, own, mark.right), **names),
            chosen=self.chosen(decision, response),
            correct="" if mark.right else self.correct(decision),
            sums=words.sums.say({**self._scope, **names}, replace(self.units, decimal=True)),
            leads_to=self.say(_EMPTY if mark.right else own.leads_to or words.leads_to, **names),
            caution=self.caution,
        )

    def _names(self, decision: Decision, response: Response, mark: Mark) -> dict[str, Any]:
        """What the texts of an answer may use; ``validate_words`` lists it by kind of decision."""
        names = {"response": next(iter(response.values()), None), "answer": decision.answer}
        match decision.kind:
            case "mark":
                names["part"] = decision.part(response["row"])
            case "find":
                names |= {"hits": decision.answer, "misses": [], "false_alarms": []}
            case "place":
                names["at"] = _place(decision, response)
            case "measure" | "time":
                names |= {"given": names["response"], "off_by": 0}
            case "order":
                names["step"] = self._step(decision, mark.detail.get("step"))
                names["needs"] = self._step(
                    decision, next(iter(mark.detail.get("needs", ())), None)
                )
                return names
        return {**names, **mark.detail}

    def chosen(self, decision: Decision, response: Response) -> str:
        """The response in words."""
        if decision.kind in ("measure", "time"):
            return self._amount(decision, next(iter(response.values())))
        if decision.kind == "place" and "row" not in response:
            return " · ".join(self.units.say_length(at) for at in _place(decision, response))
        return self._listed(decision, next(iter(response.values())))

    def correct(self, decision: Decision) -> str:
        """The computed answer in words."""
        words, answer = self._of(decision), decision.answer
        if words.answer:
            return " ".join(self.say(words.answer, answer=answer))
        if decision.kind in ("measure", "time"):
            return self._amount(decision, answer)
        if decision.kind == "go_stop":
            return " ".join(self.option(decision, row) for row in answer["grounds"] or ["go"])
        return self._listed(decision, answer)

    def _amount(self, decision: Decision, value: float) -> str:
        if decision.kind == "time":
            return say_clock(value)
        return self.units.say_amount(value, decision.unit)

    def _listed(self, decision: Decision, ids: str | list[str]) -> str:
        """One row or several, in words."""
        rows = dict(self.rows(decision))
        joint = " → " if decision.kind == "order" else "; "
        texts = [rows[row] for row in ([ids] if isinstance(ids, str) else ids)]
        inner = [text.removesuffix(".") for text in texts[:-1]]
        return joint.join([*inner, *texts[-1:]]) or NOTHING

    def _step(self, decision: Decision, name: str | None) -> str:
        return dict(self.rows(decision))[name] if name else ""

    def _of(self, decision: Decision) -> DecisionWords:
        return self.words.decisions[decision.id]

    def _own_words(
        self, words: DecisionWords, decision: Decision, mark: Mark
    ) -> OptionWords | None:
        """The words of the very option that was chosen, or of the mistake that was made."""
        keys = [mark.chosen, mark.misconception]
        if decision.kind == "order" and not mark.right:
            keys = [f"{mark.detail['step']} before {need}" for need in mark.detail["needs"]]
        return next((words.options[key] for key in keys if key in words.options), None)

    def _labelled(self, data: Any) -> Any:
        """``data`` with every text that begins with "@" replaced by the label of that name."""
        if isinstance(data, str):
            is_label = data.startswith("@")
            return self.words.labels[data[1:]].say(self._scope, self.units) if is_label else data
        if isinstance(data, dict):
            return {key: self._labelled(part) for key, part in data.items()}
        if isinstance(data, list):
            return [self._labelled(part) for part in data]
        return data


def _because(words: DecisionWords, own: OptionWords, right: bool) -> Passage:
    return (own.right or words.right) if right else (own.wrong or words.wrong)


def _place(decision: Decision, response: Response) -> list[float]:
    """Where the response is, in millimetres, along each axis."""
    if "row" in response:
        option = decision.option(response["row"])
        return list(option.at or ()) if option else []
    return [response[f"{axis}_mm"] for axis in decision.axes]
