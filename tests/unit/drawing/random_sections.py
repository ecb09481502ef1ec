"""Parapet sections at random, within what docs/drawings.md allows."""

from __future__ import annotations

from random import Random

from tests.unit.drawing.random_parts import Figure, maybe


def section(chance: Random) -> Figure:
    height = chance.choice([90, 150, 200, 300, 400, 600, 1100])
    cant = chance.choice([0, 0, 50, 80])
    deck = chance.choice(["concrete", "steel", "timber"])
    thick = chance.choice([100, 160, 200]) if deck == "concrete" else chance.choice([25, 50, 90])
    made = {
        "height_mm": height,
        "width_mm": chance.choice([180, 240, 300, 365]),
        "deck": {"material": deck, "thickness_mm": thick},
        "core": chance.choice(["masonry", "concrete", "timber framing"]),
        "field_sheets": chance.choice([0, 1, 2]),
        "dimensions": [
            name
            for name in ("height", "width", "cant", "field_lap", "outer_drop", "chalk")
            if chance.random() < 0.4
        ],
        **({"cant": {"leg_mm": cant, "material": chance.choice(CANTS)}} if cant else {}),
        **maybe(chance, 0.8, insulation=_insulation(chance)),
        **maybe(chance, 0.4, nailer_mm=chance.choice([20, 38])),
        **maybe(chance, 0.3, void={"from_mm": height * 0.3, "to_mm": height * 0.5}),
        **maybe(chance, 0.3, vent={"from_mm": height * 0.2, "to_mm": height * 0.28}),
        **maybe(chance, 0.3, foam=_foam(chance)),
        **maybe(chance, 0.4, cladding={"thickness_mm": 25, "material": chance.choice(CLADS)}),
        **maybe(chance, 0.7, flashing=_flashing(chance)),
        **maybe(chance, 0.5, chalk=_chalk(chance)),
        **maybe(chance, 0.2, flame={"at": [-250, 120], "towards": [0, 60]}),
        **maybe(chance, 0.2, finish_mm=chance.choice([40, 60])),
        **_edge_work(chance, height),
    }
    return _fitted(chance, made)


def _edge_work(chance: Random, height: float) -> Figure:
    """What is added to a parapet, put on it or seen round it."""
    rail = {"height_mm": height + 700}
    sun = [
        {"face": "wall", "label": "52 °C", "sun": True},
        {"face": "top", "sun": False},
        {"face": "field", "label": "in the shade", "sun": False},
    ]
    return {
        **maybe(chance, 0.3, added=_added(chance)),
        **maybe(chance, 0.2, guardrail=rail),
        **maybe(chance, 0.2, drop_mm=chance.choice([3200, 14600])),
        **maybe(chance, 0.2, faces=sun),
        **maybe(chance, 0.2, beyond_mm=chance.choice([-30, 60])),
        **maybe(chance, 0.3, detail={"at": [-40, 20], "radius_mm": chance.choice([60, 100])}),
    }


def _added(chance: Random) -> list[Figure]:
    materials = chance.sample(MATERIALS, 2)
    return [
        {"material": materials[0], "thickness_mm": chance.choice([20, 60, 120])},
        {"material": materials[1], "thickness_mm": 50, "label": "upper board"},
    ]


MATERIALS = (
    "concrete",
    "masonry",
    "steel",
    "mineral wool",
    "mineral board",
    "timber",
    "wood fibre",
    "foam",
    "bitumen felt",
)


def _fitted(chance: Random, figure: Figure) -> Figure:
    """A section's figure with what rests on the rest of it."""
    sheet = figure.get("flashing")
    if sheet:
        free = figure["height_mm"] - figure.get("cant", {"leg_mm": 0})["leg_mm"]
        figure |= maybe(chance, 0.4, bridge={"gap_mm": min(free, chance.choice([15, 40]))})
        figure["dimensions"] += ["flashing_height"] if chance.random() < 0.3 else []
    if "added" in figure:
        figure["dimensions"] += ["height_old"] if chance.random() < 0.5 else []
        if sheet and chance.random() < 0.5:
            sheet["foot"] = "old"
    if "guardrail" in figure and chance.random() < 0.5:
        figure["dimensions"] += ["guardrail"]
    if chance.random() < 0.3:
        figure.pop("finish_mm", None)
        figure["finish"] = {"material": chance.choice(["ballast", "pavers"]), "thickness_mm": 50}
        figure["dimensions"] += ["height_new"]
    return figure | (_layered(chance, figure) if chance.random() < 0.3 else {})


def _layered(chance: Random, figure: Figure) -> Figure:
    """The wall built up of layers in place of a core."""
    for name in ("core", "foam", "cladding", "void"):
        figure.pop(name, None)
    thin, thick = chance.sample(MATERIALS, 2)
    cavity = {"material": "cavity", "thickness_mm": 30, "open": "nailer_mm" not in figure}
    layers: list[Figure] = [
        {"material": thin, "thickness_mm": chance.choice([4, 18, 40])},
        {"material": chance.choice(["timber framing", thick]), "thickness_mm": 140},
        cavity,
        {"material": thick, "thickness_mm": 90, "label": "veneer"},
    ]
    return {"layers": layers, "width_mm": sum(layer["thickness_mm"] for layer in layers)}


CANTS = ("mineral", "wood fibre", "timber", "foam")


CLADS = ("metal", "timber", "masonry")


def _insulation(chance: Random) -> Figure:
    return {
        "material": chance.choice(["foam", "mineral wool"]),
        "thickness_mm": chance.choice([30, 60, 100, 200]),
    }


def _foam(chance: Random) -> Figure:
    return {
        "thickness_mm": chance.choice([30, 50]),
        "side": chance.choice(["inside", "outside"]),
    }


def _flashing(chance: Random) -> Figure:
    return {
        "field_lap_mm": chance.choice([60, 100, 150]),
        "outer_drop_mm": chance.choice([0, 40, 60]),
    }


def _chalk(chance: Random) -> Figure:
    made: Figure = {"at_mm": chance.choice([100, 150, 200])}
    return made | maybe(chance, 0.6, movable={"min": 0, "max": 400, "step": 5})


def after_section(figure: Figure) -> Figure:
    wall = "layer-1" if "layers" in figure else "core"
    return {
        "states": {"deck": "right", wall: "wrong"},
        "after": [
            {
                "type": "dimension",
                "from": [-180, 30],
                "to": [0, 30],
                "text": "80 + 100 = 180 mm",
                "ok": False,
            },
            {
                "type": "water",
                "path": [[-150, 60], [-60, 40], [-20, -20]],
                "text": "water runs in behind the sheet",
            },
            {"type": "ghost", "outline": [[-200, 0], [-200, 40]], "text": "the line belongs here"},
            {"type": "note", "at": [60, 40], "text": "wet insulation", "ok": False},
        ],
    }
