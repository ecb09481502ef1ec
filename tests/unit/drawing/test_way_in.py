"""The way in: every unit has a numbered link at its own place, a finger wide."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import pytest

from trainer.drawing import draw
from trainer.drawing.way_in import PLACES
from trainer.errors import InputError

SVG = "{http://www.w3.org/2000/svg}"
UNITS = [
    {"id": f"u{n}", "place": place, "name": f"Unit {n}", "word": place}
    for n, place in enumerate(PLACES)
]


def figure(**more):
    wanted = {"kind": "way-in", "id": "w", "title": "Parapet", "desc": "A cut.", "units": UNITS}
    return draw({**wanted, **more})


def links(svg: str) -> list[ET.Element]:
    return list(ET.fromstring(svg).iter(f"{SVG}a"))


def box(link: ET.Element) -> tuple[float, float, float, float]:
    """What is pressed: left, top, right, bottom."""
    path = next(p for p in link.iter(f"{SVG}path") if p.get("class") == "hit")
    numbers = [float(n) for n in re.findall(r"-?\d+\.?\d*", path.get("d", ""))]
    return tuple(numbers[:4])


def test_every_unit_has_its_link_and_its_number() -> None:
    found = links(figure())
    assert [link.get("href") for link in found] == [f"#unit-u{n}" for n in range(len(PLACES))]
    for number, link in enumerate(found, 1):
        assert link.get("aria-label") == f"{number}. Unit {number - 1}"
        assert [t.text for t in link.iter(f"{SVG}text")] == [str(number), PLACES[number - 1]]


def test_what_is_pressed_is_a_finger_wide_and_lies_in_the_drawing() -> None:
    svg = figure()
    left, top, wide, high = map(float, ET.fromstring(svg).get("viewBox", "").split())
    for link in links(svg):
        a, b, c, d = box(link)
        assert c - a >= 44 and d - b >= 44
        assert left <= a and c <= left + wide and top <= b and d <= top + high


def test_no_two_balloons_lie_on_each_other() -> None:
    circles = [
        (float(c.get("cx", 0)), float(c.get("cy", 0)))
        for link in links(figure())
        for c in link.iter(f"{SVG}circle")
        if float(c.get("r", 0)) > 10
    ]
    assert len(circles) == len(PLACES)
    for i, (x, y) in enumerate(circles):
        assert all((x - a) ** 2 + (y - b) ** 2 > 30**2 for a, b in circles[i + 1 :])


def test_the_same_units_give_the_same_bytes() -> None:
    assert figure() == figure()


def test_an_unknown_place_is_named() -> None:
    with pytest.raises(InputError) as refused:
        figure(units=[{**UNITS[0], "place": "chimney"}])
    assert refused.value.field == "units[0].place" and refused.value.value == "chimney"
