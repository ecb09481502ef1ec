"""What it costs to store an answer durably, beside bare Flask with one raw INSERT.

Both on the same server, both committed with synchronous=FULL, asked in turns in one run. Run with
``pytest tests/benchmarks/test_storing_an_answer.py --benchmark-enable -s``. Figures are printed and
recorded; what fails here is an answer that was refused, never one that was slow.
"""

from __future__ import annotations

import re
import statistics
from itertools import count

import pytest
from bare_apps import PASSWORD
from serving import Client, at_once, quantile, served

ROUNDS, EACH = 7, 60
BODY = "The lap is 60 mm and the rule asks for 100 mm: move the sheet before it bonds. " * 4
keys = (f"key-{n:012d}" for n in count())


@pytest.fixture(autouse=True)
def only_when_asked_for(benchmark):
    if benchmark.disabled:
        pytest.skip("benchmarks are switched on with --benchmark-enable")


@pytest.fixture(scope="module")
def ports(tmp_path_factory):
    folder = tmp_path_factory.mktemp("served")
    environment = {
        "TRAINER_INSTANCE": str(folder / "instance"), "FLOOR_DATABASE": str(folder / "floor.db"),
    }  # fmt: skip
    with (
        served("bare_apps:floor", environment) as floor,
        served("bare_apps:ours", environment) as ours,
    ):
        yield floor, ours


def signed_in(port: int) -> tuple[Client, dict[str, str]]:
    """A client of ours in which Ana has signed in, and the form token to send."""
    client = Client(port, {"Origin": f"http://127.0.0.1:{port}"})
    client.get("/sign-in")
    sent = {"csrf_token": _token(client), "name": "ana", "password": PASSWORD, "next": "/settings"}
    client.post("/sign-in", sent)
    assert client.status == 303
    client.get("/settings")
    return client, {"csrf_token": _token(client), "body": BODY}


def _token(client: Client) -> str:
    return re.search(rb'name="csrf_token"[^>]* value="([^"]+)"', client.body)[1].decode()


def kept(client: Client, fields: dict[str, str]) -> float:
    waited = client.post("/answer", {**fields, "key": next(keys)})
    assert (client.status, client.body) == (200, b"kept")
    return waited


def test_one_answer_beside_one_raw_insert(ports, benchmark):
    floor, (ours, fields) = Client(ports[0]), signed_in(ports[1])
    ratios = []
    for _ in range(ROUNDS):
        bare = quantile([kept(floor, fields) for _ in range(EACH)], 0.5)
        whole = quantile([kept(ours, fields) for _ in range(EACH)], 0.5)
        ratios.append(whole / bare)
    report(benchmark, p50_ours_to_floor=statistics.median(ratios), p50_ours_ms=whole * 1000)


@pytest.mark.parametrize("clients", [8, 64])
def test_many_answers_at_once(ports, benchmark, clients):
    phones = [signed_in(ports[1]) for _ in range(clients)]
    fields = [fields for _, fields in phones]
    waits = at_once(
        [client for client, _ in phones], EACH, lambda client, n, _: kept(client, fields[n])
    )
    assert len(waits) == clients * EACH  # none refused, none lost
    p50, p99 = quantile(waits, 0.5), quantile(waits, 0.99)
    report(benchmark, clients=clients, p99_to_p50=p99 / p50, p50_ms=p50 * 1000)


def report(benchmark, **figures: float) -> None:
    benchmark.extra_info.update(figures)
    benchmark.pedantic(lambda: None)
    print(" ", ", ".join(f"{name} {value:.3g}" for name, value in figures.items()))
