"""A real site on a real server: one worker who has signed in, with scenarios open before her."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path

from serving import Client, floor_served, ours_served

from trainer.app import make_parts
from trainer.config import Settings
from trainer.services import accounts, attempts, sessions
from trainer.services.learning import right_response
from trainer.services.scenarios import library
from trainer.services.site import make_ready

PASSWORD = "gravel stops the bucket slide"
FAMILIES = ("chalk-line", "torch-stand", "corner-fold")  # begin with a row to choose
UNITS = ("set-out", "flame", "corners")  # the units of these families
_numbers = count()


@dataclass
class AtWork:
    """``ours`` and ``floor`` are the ports of the two servers."""

    ours: int
    floor: int
    settings: Settings
    seeds: Iterator[int] = field(default_factory=count)

    def open_scenarios(self, how_many: int) -> list[tuple[str, dict[str, str]]]:
        """As many scenarios, opened and waiting: address of the first decision, right answer."""
        parts = make_parts(self.settings)
        ana = sessions.signed_in(parts, sessions.sign_in(parts, "ana", PASSWORD))
        with parts.database.writing() as session:
            shelf = library(session)
            made = [self._open(session, parts, ana, shelf) for _ in range(how_many)]
        parts.database.close()
        return made

    def _open(self, session, parts, ana, shelf) -> tuple[str, dict[str, str]]:
        seed = next(self.seeds)
        family = FAMILIES[seed % len(FAMILIES)]
        opened = attempts.open_attempt(session, parts, ana, shelf, family, seed=seed)
        decision = shelf.of(opened).decisions[0]
        return f"/scenario/{opened.public_id}/{decision.id}", right_response(decision)


def site_at_work(folder: Path) -> Iterator[AtWork]:
    environment = {
        "TRAINER_INSTANCE": str(folder / "instance"), "FLOOR_DATABASE": str(folder / "floor.db"),
    }  # fmt: skip
    settings = Settings.load(environment)
    parts = make_parts(settings)
    make_ready(parts.database, "Mill Street", "UTC")
    accounts.add_person(
        parts, accounts.NewPerson("Ana", "ana", PASSWORD, must_change_password=False)
    )
    parts.database.close()
    with (
        floor_served(environment) as floor,
        ours_served(environment) as ours,
    ):
        yield AtWork(ours, floor, settings)


def signed_in(port: int) -> tuple[Client, dict[str, str]]:
    """A client of ours in which Ana has signed in, and the form token it has to send."""
    client = Client(port, {"Origin": f"http://127.0.0.1:{port}"})
    client.get("/sign-in")
    fields = {"name": "ana", "password": PASSWORD, "next": "/settings"}
    client.post("/sign-in", {**_token(client), **fields})
    if client.status == 429:
        return signed_in(port)
    assert client.status == 303
    client.get("/settings")
    return client, _token(client)


def answer(client: Client, token: dict[str, str], scenario: tuple[str, dict[str, str]]) -> float:
    """Answer one decision and see that it was taken; the seconds waited."""
    address, response = scenario
    waited = client.post(address, {**token, **response, "key": f"{next(_numbers):016d}"})
    assert client.status == 303, client.body
    assert client.location.startswith(address)
    return waited


def open_by_hand(client: Client, token: dict[str, str], turn: int) -> str:
    """Open a scenario as a phone does, by the button of a unit; the address of its page."""
    client.post(f"/practise/{UNITS[turn % len(UNITS)]}", token)
    assert client.status == 303, client.body
    return client.location


def _token(client: Client) -> dict[str, str]:
    found = re.search(rb'name="csrf_token"[^>]* value="([^"]+)"', client.body)
    return {"csrf_token": found[1].decode()}
