"""Laws of roof edges and raised roofs: deeper, lower and thicker is never better."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import assume, given
from hypothesis import strategies as st

from trainer.roofing.contract import exact
from trainer.roofing.edge import Edge
from trainer.roofing.finish import finish_height

LENGTHS = st.integers(0, 12_000) | st.floats(0, 12_000)
LAYERS = st.lists(st.integers(0, 200) | st.floats(0, 200), max_size=5)
EDGES = st.builds(Edge, LENGTHS, LENGTHS, LENGTHS, LENGTHS, st.booleans(), st.booleans())


@given(EDGES, LENGTHS)
def test_a_deeper_drop_is_never_better(edge, deeper):
    assert replace(edge, drop_mm=edge.drop_mm + deeper).grounds or not edge.grounds


@given(EDGES, LENGTHS)
def test_a_higher_parapet_is_never_worse(edge, higher):
    assert edge.grounds or not replace(edge, parapet_mm=edge.parapet_mm + higher).grounds


@given(EDGES)
def test_a_guardrail_or_a_rope_clears_every_edge(edge):
    assert not replace(edge, guardrail=True).grounds
    assert not replace(edge, tied_on=True).grounds


@given(EDGES)
def test_an_edge_is_held_up_only_when_it_needs_protection_and_has_none(edge):
    assert bool(edge.grounds) == (edge.needed and not edge.protected)
    assert len(edge.grounds) <= 1


@given(LENGTHS, LAYERS, LENGTHS, st.data())
def test_the_order_of_the_layers_changes_nothing(height, layers, required, data):
    assume(sum(layers) < height)
    turned = data.draw(st.permutations(layers))
    assert finish_height(height, turned, required) == finish_height(height, layers, required)


@given(LENGTHS, LAYERS, st.integers(0, 200), LENGTHS)
def test_a_layer_more_leaves_less_by_its_thickness(height, layers, more, required):
    assume(sum(layers) + more < height)
    fewer = finish_height(height, layers, required)
    every = finish_height(height, [*layers, more], required)
    assert fewer.height_mm - every.height_mm == more
    assert fewer.ok or not every.ok


@given(LENGTHS, LAYERS, LENGTHS)
def test_what_falls_short_is_what_would_have_to_be_added(height, layers, required):
    assume(sum(layers) < height)
    found, asked = finish_height(height, layers, required), exact(required)
    assert found.ok == (found.height_mm >= asked)
    assert found.height_mm + found.short_mm == max(found.height_mm, asked)
