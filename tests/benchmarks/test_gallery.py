"""Every drawing of the gallery: time per drawing over all cells, the slowest cell named.

Run with ``pytest tests/benchmarks/test_gallery.py --benchmark-enable -s``.
"""

from __future__ import annotations

from statistics import median

from trainer.services.catalogue import cells
from trainer.services.gallery import cell_page
from trainer.services.scenarios import library

SEEDS = 3
ROUNDS = 3


def test_every_drawing_of_the_gallery(report):
    shelf = library()
    times: dict[tuple[str, str], float] = {}
    for cell in cells():
        rounds = [cell_page(shelf, *cell, SEEDS).seconds for _ in range(ROUNDS)]
        times[cell] = median(map(median, rounds))
    slowest = max(times, key=times.__getitem__)
    print(f"\n  {len(times)} cells, slowest {', '.join(slowest)}:", end="")
    report(
        cells=len(times),
        median_us=1e6 * median(times.values()),
        slowest_us=1e6 * times[slowest],
    )
