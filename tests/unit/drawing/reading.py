"""Reading a drawing back: elements, points of a path, places of groups."""

from __future__ import annotations

import re
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"
_STEP = re.compile(r"([MLHVZ])([^MLHVZ]*)")

Element = ElementTree.Element
Point = tuple[float, float]


def parsed(svg: str) -> Element:
    """The drawing as a tree; fails on anything that is not well-formed."""
    return ElementTree.fromstring(svg)


def part(root: Element, ident: str) -> Element:
    """The one element that shows what the part ``ident`` looks like."""
    (found,) = [element for element in root.iter() if element.get("data-shape") == ident]
    return found


def pressed(root: Element, ident: str) -> Element:
    """The one element of the part ``ident`` that can be pressed or moved, or bears its state."""
    (found,) = [element for element in root.iter() if element.get("data-part") == ident]
    return found


def points(data: str) -> list[Point]:
    """The points of path data made of M, L, H, V and Z."""
    x = y = 0.0
    found = []
    for letter, rest in _STEP.findall(data):
        numbers = [float(number) for number in rest.split()]
        if letter == "H":
            x = numbers[0]
        elif letter == "V":
            y = numbers[0]
        elif numbers:
            x, y = numbers
        if letter != "Z":
            found.append((x, y))
    return found


def box(element: Element) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of the first path of a part."""
    path = next(element.iter(f"{SVG}path"))
    xs, ys = zip(*points(path.get("d") or ""), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def place(element: Element) -> Point:
    """Where an element, or the first element in it that is moved, was moved to."""
    moved = next(e for e in element.iter() if "translate" in e.get("transform", ""))
    x, y = re.findall(r"-?[\d.]+", moved.get("transform") or "")[:2]
    return float(x), float(y)


def words(root: Element) -> list[str]:
    """Every text of the drawing, its lines joined."""
    return [" ".join(text.itertext()) for text in root.iter(f"{SVG}text")]


def classed(root: Element, name: str) -> list[Element]:
    """Every element of the class ``name``."""
    return [element for element in root.iter() if name in (element.get("class") or "").split()]
