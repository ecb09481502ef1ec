"""Learn: the example of a family that somebody worked out by hand, drawn and answered."""

from __future__ import annotations

from trainer.engine.explain import Telling
from trainer.engine.scenario import Decision
from trainer.services.pages import ExamplePage, ExampleStep
from trainer.services.parts import Parts
from trainer.services.person import SignedIn
from trainer.services.refusals import NotFound
from trainer.services.scenarios import figure_of, language_of, library
from trainer.services.speech import choice_in_words, speaker


def example(parts: Parts, person: SignedIn, family_id: str) -> ExamplePage:
    """The example of a family, told to ``person``.

    Raises NotFound where there is no such family, or what was worked out by hand does not hold
    under the rules in force here.
    """
    with parts.database.reading() as session:
        shelf = library(session)
    family = shelf.pack.families.get(family_id)
    scenario = shelf.example(family) if family else None
    if family is None or scenario is None:
        raise NotFound("example")
    telling = shelf.telling(scenario, person)
    return ExamplePage(
        title=telling.title,
        unit=family.unit,
        unit_name=shelf.pack.unit(family.unit).words_in(language_of(person)).name,
        situation=telling.situation,
        figure=figure_of(telling, name="example"),
        steps=tuple(_step(telling, decision) for decision in scenario.decisions),
        lines=telling.words.worked,
    )


def _step(telling: Telling, decision: Decision) -> ExampleStep:
    say = speaker(telling.language)
    shows = decision.id in telling.scenario.after
    figure = figure_of(telling, answered=(decision.id,), name=f"example-{decision.id}")
    return ExampleStep(
        prompt=telling.prompt(decision),
        answer=choice_in_words(telling.correct(decision), say),
        figure=figure if shows else "",
    )
