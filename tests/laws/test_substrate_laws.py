"""Laws of the substrate gate: more layers or openings never allow a flame that was forbidden."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from trainer.roofing.substrate import BURNS, Layer, gate

LAYERS = st.lists(st.builds(Layer, st.text(max_size=5), st.sampled_from(sorted(BURNS))), max_size=6)
OPENINGS = st.lists(st.text(max_size=5), max_size=4)


@given(LAYERS, LAYERS, OPENINGS)
def test_a_layer_more_never_allows_a_flame(layers, more, openings):
    assert gate(layers, openings).flame or not gate(layers + more, openings).flame


@given(LAYERS, OPENINGS, st.data())
def test_covering_an_opening_is_never_worse(layers, openings, data):
    left = data.draw(st.lists(st.sampled_from(openings), unique=True)) if openings else []
    assert gate(layers, left).flame or not gate(layers, openings).flame


@given(LAYERS, OPENINGS, st.data())
def test_the_order_of_layers_and_openings_changes_nothing_but_the_order_named(
    layers, openings, data
):
    turned = gate(data.draw(st.permutations(layers)), data.draw(st.permutations(openings)))
    found = gate(layers, openings)
    assert turned.flame == found.flame
    assert sorted(turned.burns) == sorted(found.burns)
    assert sorted(turned.open_ways) == sorted(found.open_ways)


@given(LAYERS, OPENINGS)
def test_a_flame_is_forbidden_only_for_something_that_is_named(layers, openings):
    found = gate(layers, openings)
    assert found.flame == (not found.burns and not found.open_ways)
    assert set(found.burns) <= {layer.name for layer in layers}
    assert set(found.open_ways) <= set(openings)
