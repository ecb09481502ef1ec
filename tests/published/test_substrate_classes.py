"""What burns at a parapet, against the European classes of reaction to fire (EN 13501-1).

Classes A1 and A2 are those of products that do not burn, or hardly; B to F burn. All classes here
are from memory, of an ordinary product of that kind, each beside the document that gives it. A
product may be better or worse than its kind: the calculator says so, and asks for the data sheet.
"""

from __future__ import annotations

import pytest

from trainer.roofing.substrate import BURNS, Layer, gate

CLASSES = {
    # Commission Decision 96/603/EC, class A1 without test (from memory)
    "concrete": "A1",
    "masonry": "A1",  # units of clay, calcium silicate, concrete
    "steel": "A1",
    "mineral wool": "A1",  # at most 1 % of organic binder
    # fibre cement, 96/603/EC; gypsum board with paper, Decision 2006/673/EC (from memory)
    "mineral board": "A2-s1,d0",
    # Decision 2003/43/EC: structural timber, 350 kg/m³ and 22 mm or more (from memory)
    "timber": "D-s2,d0",
    # Decision 2003/43/EC: softboard of EN 622-4, 250 kg/m³ and 9 mm or more (from memory)
    "wood fibre": "E",
    # EN 13163, expanded polystyrene with a flame retardant; without one F (from memory)
    "foam": "E",
    # EN 13707, 5.2.4: bitumen sheets are tested to EN ISO 11925-2 and reach E (from memory)
    "bitumen felt": "E",
}


def test_every_material_has_a_class_and_no_other():
    assert set(CLASSES) == set(BURNS)


@pytest.mark.parametrize(("material", "euroclass"), CLASSES.items())
def test_a_flame_may_come_to_classes_a1_and_a2_alone(material, euroclass):
    assert gate([Layer("upstand", material)]).flame == (euroclass[:2] in ("A1", "A2"))
