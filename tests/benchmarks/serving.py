"""Two programs on real servers, and clients that wait for their answers one by one.

``served("module:factory", environment)`` runs a WSGI app with waitress in a process of its own, as
``trainer serve`` does; ``Client`` keeps one connection, as a phone does.
"""

from __future__ import annotations

import http.client
import os
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlencode

_HERE = Path(__file__).parent
_RUN = """
import sys
from importlib import import_module
from waitress import create_server
sys.path.insert(0, sys.argv[1])
module, _, factory = sys.argv[2].partition(":")
server = create_server(getattr(import_module(module), factory)(), port=0, host="127.0.0.1",
                       threads=32, backlog=256, ident=None)
print(server.effective_port, flush=True)
server.run()
"""


@contextmanager
def served(factory: str, environment: Mapping[str, str]) -> Iterator[int]:
    """The port a server of ``factory()`` listens on, until the block ends."""
    server = subprocess.Popen(
        [sys.executable, "-c", _RUN, str(_HERE), factory],
        env={**os.environ, **environment}, stdout=subprocess.PIPE, text=True,
    )  # fmt: skip
    try:
        yield int(server.stdout.readline())
    finally:
        server.terminate()
        server.wait(timeout=10)


class Client:
    """One connection with its cookies; ``post`` and ``get`` return the seconds waited."""

    def __init__(self, port: int, headers: Mapping[str, str] | None = None) -> None:
        self._connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
        self._connection.connect()
        self._headers = dict(headers or {})
        self.status, self.body = 0, b""

    def get(self, path: str) -> float:
        return self._ask("GET", path, None, {})

    def post(self, path: str, fields: Mapping[str, str]) -> float:
        form = {"Content-Type": "application/x-www-form-urlencoded"}
        return self._ask("POST", path, urlencode(fields), form)

    def _ask(self, method: str, path: str, body: str | None, more: Mapping[str, str]) -> float:
        began = time.perf_counter()
        self._connection.request(method, path, body, {**self._headers, **more})
        answer = self._connection.getresponse()
        self.body = answer.read()
        waited = time.perf_counter() - began
        self.status = answer.status
        if cookie := answer.getheader("Set-Cookie"):
            self._headers["Cookie"] = cookie.partition(";")[0]
        return waited


def at_once(
    clients: list[Client], each: int, ask: Callable[[Client, int, int], float]
) -> list[float]:
    """Every client asks ``each`` times, all at the same time; every wait, sorted."""
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
