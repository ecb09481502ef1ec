"""Layers of lap starts, small enough to list: a sheet goes on by 3 to 5."""

from trainer.roofing.reach import Steps, best_ways, furthest, holds, layers_from_start, narrowed

STEPS = Steps(3, 5)
OPEN = [(3, 11), (12, 12)]  # one gap, then the end


def places(layers):
    return [
        {
            trimmed: [place for low, high, _ in pieces for place in range(low, high + 1)]
            for trimmed, pieces in layer.items()
        }
        for layer in layers
    ]


def test_every_place_stands_in_the_layer_of_its_fewest_sheets():
    layers = layers_from_start(OPEN, STEPS, 12)
    assert places(layers) == [
        {0: [0]},
        {0: [5], 1: [3, 4]},
        {0: [10], 1: [8, 9], 2: [6, 7]},
        {2: [11, 12]},
    ]
    assert holds(layers[-1], 12) and furthest(layers[1]) == 5


def test_only_what_leads_to_the_end_with_fewest_sheets_and_trims_is_kept():
    layers = best_ways(layers_from_start(OPEN, STEPS, 12), STEPS, 12)
    assert places(layers) == [
        {0: [0]},
        {0: [5], 1: [3, 4]},
        {1: [8, 9], 2: [7]},
        {2: [12]},
    ]


def test_narrowing_a_gap_drops_what_it_cuts_off():
    layers = best_ways(layers_from_start(OPEN, STEPS, 12), STEPS, 12)
    left = narrowed(layers[:-1], [(4, 8)], layers[-1], STEPS)
    assert places(left) == [{0: [0]}, {0: [5], 1: [4]}, {1: [8], 2: [7]}, {2: [12]}]
    assert narrowed(layers[:-1], [(4, 6)], layers[-1], STEPS) is None
    assert narrowed(layers[:-1], [(9, 4)], layers[-1], STEPS) is None


def test_a_hole_no_sheet_gets_over():
    layers = layers_from_start([(3, 6), (12, 19), (20, 20)], STEPS, 20)
    assert not holds(layers[-1], 20)
    assert max(furthest(layer) for layer in layers) == 6


def test_the_end_alone():
    layers = layers_from_start([(4, 4)], STEPS, 4)
    assert places(layers) == [{0: [0]}, {1: [4]}]
