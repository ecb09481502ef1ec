"""What a person waits for: an answer marked and durably stored, and the page of a scenario.

Beside bare Flask with one raw INSERT, or with a page of the same size, on the same server
(waitress, 32 threads), both committed with synchronous=FULL, asked in turns in one run:
``pytest tests/benchmarks/test_durable_answer.py --benchmark-enable -s``. Figures are printed and
recorded; what fails here is an answer that was refused or lost, never one that was slow.
"""

from __future__ import annotations

import statistics

import pytest
from serving import Client, at_once, quantile
from site_at_work import answer, open_by_hand, signed_in

ROUNDS, EACH = 7, 40
BODY = {"body": "The lap is 60 mm and the rule asks for 100 mm: move the sheet. " * 5}


def test_one_answer_beside_one_raw_insert(at_work, report):
    floor, (ours, token) = Client(at_work.floor), signed_in(at_work.ours)
    ratios, waits = [], []
    for _ in range(ROUNDS):
        scenarios = at_work.open_scenarios(EACH)
        for address, _ in scenarios:  # nobody answers what she has not seen
            _read(ours, address.rpartition("/")[0])
        pairs = [
            (answer(ours, token, scenario), floor.post("/answer", BODY)) for scenario in scenarios
        ]
        whole, bare = (statistics.median(side) for side in zip(*pairs, strict=True))
        ratios.append(whole / bare)
        waits.append(whole)
    report(
        p50_answer_to_floor=statistics.median(ratios),
        p50_answer_ms=statistics.median(waits) * 1000,
    )


@pytest.mark.parametrize(("clients", "each"), [(8, 40), (64, 10)])
def test_many_answers_at_once(at_work, report, clients, each):
    phones = [signed_in(at_work.ours) for _ in range(clients)]
    waiting = [at_work.open_scenarios(each) for _ in range(clients)]

    def ask(client: Client, number: int, turn: int) -> float:
        return answer(client, phones[number][1], waiting[number][turn])

    waits = at_once([client for client, _ in phones], each, ask)
    assert len(waits) == clients * each  # none refused as busy, none lost
    p50, p99 = quantile(waits, 0.5), quantile(waits, 0.99)
    report(clients=clients, p99_to_p50=p99 / p50, p50_ms=p50 * 1000)


def test_a_scenario_page_beside_a_bare_page(at_work, report):
    """The page a phone is led to when its button has opened a scenario, on the same server."""
    (ours, token) = signed_in(at_work.ours)

    def opened() -> list[str]:
        return [open_by_hand(ours, token, turn) for turn in range(EACH)]

    report(**_pages_beside_bare_pages(at_work, ours, opened))


def test_a_page_whose_scenario_must_be_made_beside_a_bare_page(at_work, report):
    """As above, but opened by another process, so that the server has to draw the values anew."""

    def opened() -> list[str]:
        return [address.rpartition("/")[0] for address, _ in at_work.open_scenarios(EACH)]

    report(**_pages_beside_bare_pages(at_work, signed_in(at_work.ours)[0], opened))


def _pages_beside_bare_pages(at_work, ours, opened) -> dict[str, float]:
    """Every page beside a bare one of exactly its size, in turns."""
    floor, ratios, waits, sizes = Client(at_work.floor), [], [], []
    for _ in range(ROUNDS):
        pairs = [_pair(ours, floor, page, sizes) for page in opened()]
        whole, bare = (statistics.median(side) for side in zip(*pairs, strict=True))
        ratios.append(whole / bare)
        waits.append(whole)
    return {
        "p50_page_to_floor": statistics.median(ratios),
        "p50_page_ms": statistics.median(waits) * 1000,
        "bytes": statistics.median(sizes),
    }


def _pair(ours: Client, floor: Client, page: str, sizes: list[int]) -> tuple[float, float]:
    whole = _read(ours, page)
    sizes.append(len(ours.body))
    return whole, _read(floor, f"/page/{sizes[-1]}")


def _read(client: Client, path: str) -> float:
    waited = client.get(path)
    assert client.status == 200
    return waited
