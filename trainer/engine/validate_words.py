"""Is everything a family asks also said, in every language it speaks?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from trainer.engine.flaws import Flaw, Known, Path, passage_flaws, template_flaws
from trainer.engine.spec import GO, DecisionSpec, DecisionWords, Family, OptionWords, Words

NAMES_OF_ANSWER: Mapping[str, frozenset[str]] = {
    "choose": frozenset(),
    "go_stop": frozenset(),
    "mark": frozenset({"part"}),
    "find": frozenset({"hits", "misses", "false_alarms"}),
    "place": frozenset({"at"}),
    "measure": frozenset({"given", "off_by"}),
    "time": frozenset({"given", "off_by"}),
    "order": frozenset({"step", "needs"}),
}
"""What the texts about an answer may use besides ``response`` and ``answer``."""


def words_flaws(family: Family, known: Known) -> Iterator[Flaw]:
    """Everything wrong with the texts; ``known`` is what their expressions may use."""
    decisions = {spec.id: spec for spec in family.decisions}
    for language, words in family.words.items():
        path: Path = ("words", language)
        in_texts = known.in_texts(words.terms)
        for key in ("situation", "look", "caution"):
            yield from passage_flaws((*path, key), getattr(words, key), in_texts)
        for key, label in words.labels.items():
            yield from template_flaws((*path, "labels", key), label, in_texts)
        yield from _decisions((*path, "decisions"), decisions, words, in_texts)


def _decisions(
    path: Path, decisions: Mapping[str, DecisionSpec], words: Words, known: Known
) -> Iterator[Flaw]:
    for decision_id in sorted(words.decisions.keys() - decisions.keys()):
        yield Flaw((*path, decision_id), "no decision has this name")
    for spec in decisions.values():
        if spec.id in words.decisions:
            yield from _decision((*path, spec.id), spec, words.decisions[spec.id], known)
        else:
            yield Flaw(path, f"decision {spec.id} has no words")


def _decision(path: Path, spec: DecisionSpec, words: DecisionWords, known: Known) -> Iterator[Flaw]:
    over_part = known.also({"part"}) if spec.kind in ("mark", "find", "order") else known
    yield from passage_flaws((*path, "prompt"), words.prompt, known)
    yield from template_flaws((*path, "part"), words.part, over_part)
    yield from passage_flaws((*path, "answer"), words.answer, known.also({"answer"}))
    told = known.also({"response", "answer"} | NAMES_OF_ANSWER[spec.kind])
    for key in ("right", "wrong", "leads_to", "sums"):
        yield from passage_flaws((*path, key), getattr(words, key), told)
    for option_id, option in words.options.items():
        where = (*path, "options", option_id)
        yield from template_flaws((*where, "text"), option.text, over_part)
        for key in ("right", "wrong", "leads_to"):
            yield from passage_flaws((*where, key), getattr(option, key), told)
    yield from _missing(path, spec, words)
    yield from _strangers((*path, "options"), spec, words)


def _shown(spec: DecisionSpec) -> list[str]:
    """The options that stand as rows, each with a text of its own."""
    ids = [option.id for option in spec.options if option.id != GO]
    if spec.kind == "go_stop":
        return [GO, *ids]
    return ids if spec.kind in ("choose", "place") else []


def _missing(path: Path, spec: DecisionSpec, words: DecisionWords) -> Iterator[Flaw]:
    if not words.prompt:
        yield Flaw((*path, "prompt"), "there is no prompt")
    if spec.kind in ("mark", "find", "order") and not words.part.source:
        yield Flaw((*path, "part"), "the parts have no text")
    shown = _shown(spec)
    for option_id in shown:
        where = (*path, "options", option_id)
        own = words.options.get(option_id) or OptionWords.none()
        if not own.text.source:
            yield Flaw(where, f"option {option_id} has no text")
        yield from _reasons(where, words, own)
    if not shown:
        yield from _reasons(path, words, OptionWords.none())


def _reasons(path: Path, words: DecisionWords, own: OptionWords) -> Iterator[Flaw]:
    for key in ("right", "wrong"):
        if not getattr(own, key) and not getattr(words, key):
            yield Flaw((*path, key), f"nothing says why it is {key}")


def _strangers(path: Path, spec: DecisionSpec, words: DecisionWords) -> Iterator[Flaw]:
    """Words for an option that is not there, or that nobody would ever be shown.

    What is marked or found is a part of the drawing, known only once drawn: its words stand by the
    part, or by the mistake that was made.
    """
    if spec.kind in ("mark", "find"):
        yield from _never_said(path, spec, words)
        return
    known = {name for option in spec.options for name in (option.id, option.misconception)}
    for option_id in words.options.keys() - known - set(_shown(spec)):
        yield Flaw((*path, option_id), "no option has this name")


def _never_said(path: Path, spec: DecisionSpec, words: DecisionWords) -> Iterator[Flaw]:
    mistakes = {option.id: option.misconception for option in spec.options}
    for name in sorted(words.options.keys() & (mistakes.keys() - set(mistakes.values()))):
        yield Flaw(
            (*path, name),
            f"the words of a mistake stand by its misconception: {mistakes[name] or 'it has none'}",
        )
