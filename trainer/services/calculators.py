"""Ask a calculator: from a file, a line or a form to the answer, with the rule book behind it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from trainer.errors import InputError, TrainerError
from trainer.roofing.calculators import calculator, names_and_summaries, unknown_calculator
from trainer.roofing.contract import Calculator, Field, RuleValue, read_json
from trainer.roofing.examples import EXAMPLES

__all__ = [
    "EXAMPLES",
    "AnswerLine",
    "Field",
    "answer_lines",
    "answer_text",
    "calculate",
    "calculator",
    "names_and_summaries",
    "rule_sentence",
    "rule_value",
    "steps",
    "unknown_calculator",
]


def rule_value(subject: str) -> float:
    """The value of the rule in force. Reads the rule book, so only when one is needed."""
    from trainer.pack.rulebook import load_rulebook

    return float(load_rulebook().in_force().value(subject))


def rule_sentence(subject: str) -> str:
    """The rule in force on a subject, with its value and source, as one sentence."""
    from trainer.pack.rulebook import load_rulebook

    return load_rulebook().in_force().sentence(subject)


def calculate(name: str, inputs: Any, rules: RuleValue = rule_value) -> dict[str, Any]:
    """The answer of the named calculator. Raises InputError for what it cannot take."""
    return calculator(name)(inputs, rules)


def answer_text(name: str, content: bytes, rules: RuleValue = rule_value) -> dict[str, Any]:
    """The answer to one JSON object in UTF-8. Raises InputError, on "input" when it is no JSON."""
    return _answer(calculator(name), content, rules)


@dataclass(frozen=True)
class AnswerLine:
    """The answer to one line: the results, or {"error": …} and not ok."""

    results: dict[str, Any]
    ok: bool


def answer_lines(
    name: str, lines: Iterable[bytes], rules: RuleValue = rule_value
) -> Iterator[AnswerLine]:
    """One answer for each line, in order, each as soon as its line is there."""
    asked = calculator(name)
    for line in lines:
        try:
            yield AnswerLine(_answer(asked, line.rstrip(b"\r\n"), rules), ok=True)
        except TrainerError as error:
            yield AnswerLine({"error": str(error)}, ok=False)


def _answer(asked: Calculator, content: bytes, rules: RuleValue) -> dict[str, Any]:
    return asked(read_json(_decoded(content)), rules)


def _decoded(content: bytes) -> str:
    """The text, without the mark some editors put before it."""
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        wrong = content[error.start : error.start + 1]
        allowed = f"UTF-8 text (byte {error.start + 1} is not)"
        raise InputError("input", f"\\x{wrong.hex()}", allowed) from None


def steps(job: str) -> list[dict[str, Any]]:
    """The steps of a job in one valid order. Raises InputError for a job that is none of ours."""
    from trainer.roofing.sequence import steps as steps_of

    return steps_of(job)
