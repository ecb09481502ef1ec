"""Days one above the other: one scale, findings at their minute, discs that never overlap."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.unit.drawing.reading import classed, parsed, points, words
from trainer.drawing import draw


def day(name: str, *blocks: tuple[int, int, str], **more: Any) -> dict[str, Any]:
    made = [{"from_min": a, "to_min": b, "kind": kind} for a, b, kind in blocks]
    return {"name": name, "tracks": [{"name": "Dana", "blocks": made}], **more}


def figure(*days: dict[str, Any], **more: Any) -> dict[str, Any]:
    told = {"kind": "days", "title": "t", "desc": "d", "from_min": 420, "to_min": 960}
    return {**told, "days": list(days), **more}


def lefts(root: Any) -> list[tuple[float, float]]:
    ends = [points(path.get("d") or "") for path in classed(root, "block")]
    return [(min(x for x, _ in p), max(x for x, _ in p)) for p in ends]


@given(st.integers(420, 900), st.integers(5, 60))
@settings(max_examples=40, deadline=None)
def test_both_days_share_one_scale(at: int, lasts: int) -> None:
    block = (at, at + lasts, "lay")
    whole = (420, 960, "watch")
    root = parsed(draw(figure(day("Your day", block), day("The best day", whole))))
    (left, right), (first, last) = lefts(root)
    per_min = (last - first) / 540
    assert left == pytest.approx(first + (at - 420) * per_min, abs=0.2)
    assert right - left == pytest.approx(lasts * per_min, abs=0.2)


@given(st.lists(st.integers(420, 960), min_size=1, max_size=60))
@settings(max_examples=60, deadline=None)
def test_discs_of_findings_keep_apart_and_in_the_order_of_time(times: list[int]) -> None:
    found = [{"at_min": at, "label": str(i + 1)} for i, at in enumerate(sorted(times))]
    root = parsed(draw(figure(day("Your day", findings=found), parts_live=True)))
    hits = [next(iter(e)).get("d") or "" for e in classed(root, "part")]
    spans = sorted((min(x for x, _ in points(d)), max(x for x, _ in points(d))) for d in hits)
    assert all(a[1] <= b[0] + 0.2 for a, b in pairwise(spans))
    told = " ".join(text for text in words(root) if re.fullmatch(r"\d+(–\d+)?", text))
    numbers = [int(n) for n in re.findall(r"\d+", told)]
    assert numbers == sorted(numbers) and numbers[0] == 1 and numbers[-1] == len(times)


def test_a_line_stands_at_the_minute_of_each_finding() -> None:
    found = [{"at_min": 600, "label": "1", "grave": True}, {"at_min": 602, "label": "2"}]
    root = parsed(draw(figure(day("Your day", (600, 660, "lay"), findings=found))))
    (lines,) = classed(root, "finding")
    starts = [float(x) for x in re.findall(r"M([\d.]+) ", lines.get("d") or "")]
    assert starts[0] == pytest.approx(lefts(root)[0][0], abs=0.2) and len(starts) == 2
    assert "1–2" in words(root) and "finding, critical" in words(root)


def test_the_key_names_what_occurs_and_nothing_else() -> None:
    rain = [{"from_min": 600, "to_min": 630}]
    told = words(parsed(draw(figure(day("Your day", (430, 440, "prime"), rain=rain)))))
    assert {"prime", "rain"} <= set(told) and "lunch" not in told and "finding" not in told
