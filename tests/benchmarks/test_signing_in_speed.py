"""Signing in beside the password check alone, and answers while many sign in.

Run with ``pytest tests/benchmarks/test_signing_in_speed.py --benchmark-enable -s``.
"""

from __future__ import annotations

import multiprocessing
import statistics
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from multiprocessing.sharedctypes import Synchronized
from multiprocessing.synchronize import Event

import pytest
from bare_apps import PASSWORD
from serving import at_once, quantile
from test_storing_an_answer import kept, only_when_asked_for, ports, report, signed_in

__all__ = ["only_when_asked_for", "ports"]
STORM = 16


@pytest.mark.parametrize("rounds", [15])
def test_signing_in_beside_the_check_alone(parts, add_person, benchmark, rounds):
    from dataclasses import replace

    from trainer.config import Argon2Cost
    from trainer.services import sessions
    from trainer.services.passwords import Passwords

    cost = Argon2Cost()
    parts = replace(parts, passwords=Passwords(cost.memory_kib, cost.passes, cost.lanes))
    add_person("Ana", "ana")
    sessions.sign_in(parts, "ana", PASSWORD)  # kept anew at today's cost
    known = parts.passwords.hash(PASSWORD)
    ratios = []
    for _ in range(rounds):
        check = _seconds(lambda: parts.passwords.verify(known, PASSWORD))
        whole = _seconds(lambda: sessions.sign_in(parts, "ana", PASSWORD))
        ratios.append(whole / check)
    report(benchmark, sign_in_to_check=statistics.median(ratios), check_ms=check * 1000)


def test_answers_while_many_sign_in(ports, benchmark):
    phones = [signed_in(ports[1]) for _ in range(8)]
    clients, fields = [c for c, _ in phones], [f for _, f in phones]

    def answers() -> list[float]:
        return at_once(clients, 60, lambda client, n, _: kept(client, fields[n]))

    calm = answers()
    with _storm(ports[1]) as signed:
        stormy = answers()
    p99_calm, p99_stormy = quantile(calm, 0.99), quantile(stormy, 0.99)
    report(benchmark, p99_storm_to_calm=p99_stormy / p99_calm, signed_in_meanwhile=signed.value)


@contextmanager
def _storm(port: int) -> Iterator[Synchronized]:
    """Devices signing in again and again while the block runs; how many did so far.

    In a process of their own, so that the answers are not measured waiting for them here.
    """
    context = multiprocessing.get_context("spawn")
    over, signed = context.Event(), context.Value("i", 0)
    devices = context.Process(target=_sign_in_again_and_again, args=(port, over, signed))
    devices.start()
    while signed.value == 0:
        time.sleep(0.05)
    try:
        yield signed
    finally:
        over.set()
        devices.join()


def _sign_in_again_and_again(port: int, over: Event, signed: Synchronized) -> None:
    def device() -> None:
        while not over.is_set():
            signed_in(port)
            with signed.get_lock():
                signed.value += 1

    threads = [threading.Thread(target=device) for _ in range(STORM)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()


def _seconds(work) -> float:
    began = time.perf_counter()
    work()
    return time.perf_counter() - began
