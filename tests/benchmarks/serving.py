"""Two programs on real servers, and clients that wait for their answers one by one.

``ours_served`` is ``trainer serve``, ``floor_served`` bare Flask on the same server, each in a
process of its own; ``Client`` keeps one connection, as a phone does.
"""

from __future__ import annotations

import http.client
import os
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlencode

_FLOOR = """
import sys
from waitress import create_server
sys.path.insert(0, sys.argv[1])
from bare_apps import floor
server = create_server(floor(), host="127.0.0.1", port=int(sys.argv[2]), threads=32, ident=None)
print("serving", flush=True)
server.run()
"""


@contextmanager
def floor_served(environment: Mapping[str, str]) -> Iterator[int]:
    """The port on which bare Flask is served, by the same server as ours, until the block ends."""
    port = _free_port()
    with _running(["-c", _FLOOR, str(Path(__file__).parent), str(port)], environment):
        yield port


@contextmanager
def ours_served(environment: Mapping[str, str]) -> Iterator[int]:
    """The port on which ``trainer serve`` listens until the block ends."""
    port = _free_port()
    with _running(["-m", "trainer", "serve", "--port", str(port)], environment):
        yield port


@contextmanager
def _running(arguments: list[str], environment: Mapping[str, str]) -> Iterator[None]:
    server = subprocess.Popen(
        [sys.executable, *arguments],
        env={**os.environ, **environment, "PYTHONUNBUFFERED": "1"},
        stdout=subprocess.PIPE,
    )
    server.stdout.readline()  # says where it serves once it does
    try:
        yield
    finally:
        server.terminate()
        server.wait(timeout=10)


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


class Client:
    """One connection with its cookies; ``post`` and ``get`` return the seconds waited."""

    def __init__(self, port: int, headers: Mapping[str, str] | None = None) -> None:
        self._connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
        self._connection.connect()
        self._headers = dict(headers or {})
        self.status, self.body, self.location = 0, b"", ""

    def get(self, path: str) -> float:
        return self._ask("GET", path, None, {})

    def post(self, path: str, fields: Mapping[str, str | list[str]]) -> float:
        form = {"Content-Type": "application/x-www-form-urlencoded"}
        return self._ask("POST", path, urlencode(fields, doseq=True), form)

    def _ask(self, method: str, path: str, body: str | None, more: Mapping[str, str]) -> float:
        began = time.perf_counter()
        self._connection.request(method, path, body, {**self._headers, **more})
        answer = self._connection.getresponse()
        self.body = answer.read()
        waited = time.perf_counter() - began
        self.status, self.location = answer.status, answer.getheader("Location") or ""
        if cookie := answer.getheader("Set-Cookie"):
            self._headers["Cookie"] = cookie.partition(";")[0]
        return waited


def at_once(
    clients: list[Client], each: int, ask: Callable[[Client, int, int], float]
) -> list[float]:
    """Every client asks ``each`` times, all at the same time; the waits of those that succeed."""
    waits: list[float] = []

    def work(number: int, client: Client) -> None:
        mine = [ask(client, number, turn) for turn in range(each)]
        waits.extend(mine)

    threads = [threading.Thread(target=work, args=pair) for pair in enumerate(clients)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return sorted(waits)


def quantile(waits: list[float], share: float) -> float:
    return sorted(waits)[min(len(waits) - 1, int(len(waits) * share))]
