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
from serving import at_once, quantile
from site_at_work import PASSWORD, answer, signed_in

STORM, EACH = 16, 30


@pytest.mark.parametrize("rounds", [15])
def test_signing_in_beside_the_check_alone(parts, add_person, report, rounds):
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
    report(sign_in_to_check=statistics.median(ratios), check_ms=check * 1000)


def test_answers_while_many_sign_in(at_work, report):
    phones = [signed_in(at_work.ours) for _ in range(8)]

    def answers() -> list[float]:
        waiting = [at_work.open_scenarios(EACH) for _ in phones]
        clients = [client for client, _ in phones]
        return at_once(
            clients, EACH, lambda client, n, turn: answer(client, phones[n][1], waiting[n][turn])
        )

    calm = answers()
    with _storm(at_work.ours) as signed:
        stormy = answers()
    p99_calm, p99_stormy = quantile(calm, 0.99), quantile(stormy, 0.99)
    report(p99_storm_to_calm=p99_stormy / p99_calm, signed_in_meanwhile=signed.value)


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
