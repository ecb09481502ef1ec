"""Whether a row is right so often, so long or in such a place that one need not look."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from trainer.engine.scenario import Decision
from trainer.services.content.chance import surely_above
from trainer.services.content.finding import Finding
from trainer.services.content.sample import Rows, Sample, Taken, masked

LENGTH_SHARE = 0.6
"""The right row may be the longest, or the shortest, in up to this share of the scenarios."""
SAME_SHARE = 0.75
"""One row, "always go" or "always stop" may be right in up to this share."""
PART_SHARE = 0.6
"""One part, or one set of parts, may be the answer in up to this share."""
_PLACE_DOUBT = 1e-4
"""Places are looked at in a hundred decisions at once: a chance find must be rare."""

Asked = Sequence[tuple[Taken, Decision]]


def guessed_rows(sample: Sample) -> Iterator[Finding]:
    """Rows and parts that can be guessed, over the modes in the proportions they are drawn in."""
    for name, asked in sample.decisions():
        kind = asked[0][1].kind
        if kind in ("choose", "place", "go_stop"):
            found = [
                *_by_length(name, asked),
                *_by_row(name, asked),
                *_by_place(sample.family.decision(name).pinned, asked),
            ]
        elif kind in ("mark", "find"):
            found = list(_by_part(asked))
        else:
            continue
        yield from (Finding("guess", text, sample.family.id, name) for text in found)


def _right(decision: Decision) -> set[str]:
    return {option.id for option in decision.options if option.right}


def _rows(taken: Taken, name: str) -> Rows:
    return taken.said["metric"].rows[name]


def share(found: int, of: int) -> str:
    """A share in words: "137 of 200 scenarios (69 %)"."""
    return f"{found} of {of} scenarios ({100 * found / of:.0f} %)"


def _by_length(name: str, asked: Asked) -> Iterator[str]:
    chance = sum(len(_right(d)) / len(d.options) for _, d in asked) / len(asked)
    for word, sign in (("longest", 1), ("shortest", -1)):
        found = sum(_extreme(_rows(taken, name), sign) in _right(d) for taken, d in asked)
        if surely_above(found, len(asked), max(LENGTH_SHARE, chance)):
            yield (
                f"the right row is the {word} in {share(found, len(asked))}, by chance"
                f" {100 * chance:.0f} %; make the rows of like length"
            )


def _extreme(rows: Rows, sign: int) -> str:
    """The row that is longest (1) or shortest (−1); none where two are."""
    by_length = sorted(rows, key=lambda row: -sign * len(row[1]))
    tied = len(by_length) > 1 and len(by_length[0][1]) == len(by_length[1][1])
    return "" if tied else by_length[0][0]


def _by_row(name: str, asked: Asked) -> Iterator[str]:
    if asked[0][1].kind == "go_stop":
        go = sum(decision.answer["go"] for _, decision in asked)
        for word, found in (("go", go), ("stop", len(asked) - go)):
            if surely_above(found, len(asked), SAME_SHARE):
                counted = share(found, len(asked))
                yield f"always to say {word} is right in {counted}; weigh the modes"
    told = Counter(
        text for taken, decision in asked for text in _told(_rows(taken, name), decision)
    )
    for text, found in told.most_common(1):
        if surely_above(found, len(asked), SAME_SHARE):
            yield f'the row "{text}" is right in {share(found, len(asked))}; weigh the modes'


def _told(rows: Rows, decision: Decision) -> set[str]:
    """Right rows as they read without their numbers, where no wrong one reads the same."""
    right = _right(decision)
    wrong = {masked(text) for row, text in rows if row not in right}
    return {masked(text) for row, text in rows if row in right} - wrong


def _by_place(pinned: bool, asked: Asked) -> Iterator[str]:
    if asked[0][1].kind == "go_stop":  # go stands first, always: its share is counted above
        return
    places = Counter(
        place
        for _, decision in asked
        for place, option in enumerate(decision.options)
        if option.right
    )
    chance = sum(1 / len(decision.options) for _, decision in asked) / len(asked)
    limit, doubt = (LENGTH_SHARE, 0.01) if pinned else (chance, _PLACE_DOUBT)
    for place, found in places.most_common(1):
        if surely_above(found, len(asked), max(limit, chance), doubt):
            said = f"the right row stands at place {place + 1} in {share(found, len(asked))}"
            mend = "; do not pin the rows" if pinned else ""
            yield f"{said}, by chance {100 * chance:.0f} %{mend}"


def _by_part(asked: Asked) -> Iterator[str]:
    told = Counter(_meant(decision) for _, decision in asked)
    for text, found in told.most_common(1):
        if surely_above(found, len(asked), PART_SHARE):
            yield f"the answer is {text} in {share(found, len(asked))}; draw where it lies"


def _meant(decision: Decision) -> str:
    if isinstance(decision.answer, str):
        return decision.answer
    return ", ".join(sorted(decision.answer)) or "nothing"
