"""The real program with invented scenarios: every kind of decision at a known address.

Accounts, sessions, forms and pages are the real ones. Only what lessons, scenarios and records
would say is invented; answers are kept by key in memory, so that a test can count them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup
from flask import Flask

from tests.functional import sample_pages as sample
from trainer.app import create_app
from trainer.config import Argon2Cost, Settings
from trainer.errors import InputError, MissingField
from trainer.services import accounts, attempts, refusals
from trainer.services.pages import ScenarioPage, Verdict
from trainer.services.site import make_ready
from trainer.web.learn import answers, lessons, proving, scenarios
from trainer.web.record import views as record_views

PASSWORD = "tar kettle north corner"
PEOPLE = {"rena": "worker", "sol": "supervisor", "kim": "coordinator", "aud": "auditor"}
PAGES = {
    "home": "/",
    "lesson": "/learn/stagger",
    "before practice": "/practise/stagger",
    **{kind: f"/scenario/{kind}" for kind in sample.DECISIONS},
    "right": "/scenario/was-right/edge",
    "not yet": "/scenario/was-not-yet/edge",
    "dangerous": "/scenario/was-dangerous/flame",
    "all made": "/scenario/was-dangerous",
    "form": "/scenario/form",
    "prove": "/prove/stagger",
    "result": "/form/s1/result",
    "record": "/record",
    "people": "/people",
    "one person": "/people/p7",
    "settings": "/settings",
    "password": "/password",
    "no such page": "/nowhere",
}
"""Every page of the program, by what it shows; the coordinator may see them all."""

RIGHT_ROWS = {"place": "b", "mark": "corner", "go_stop": "unclosed", "choose": "strip"}
FORBID_FLAME = {"lap", "can", "corner"}
RIGHT_ORDER = "preheat|bond|fill|weld|watch"


class SampleServices:
    """Stands in at once for practice, learning, attempts, scenario_pages, prove and recordbook."""

    def __init__(self) -> None:
        self.attempts: dict[str, ScenarioPage] = {
            kind: sample.scenario(kind, kind) for kind in sample.DECISIONS
        }
        self.attempts["two"] = _two_decisions()
        for name, kind, verdict in (
            ("was-right", "place", sample.RIGHT),
            ("was-not-yet", "place", sample.NOT_YET),
            ("was-dangerous", "go_stop", sample.DANGEROUS),
        ):
            page = sample.scenario(kind, name)
            self.attempts[name] = sample.with_verdict(page, page.decisions[0].id, verdict)
        self.attempts["form"] = replace(
            _two_decisions("form"), number=2, of=5, purpose="prove-practice", set="s1"
        )
        self.answers: dict[str, tuple[str, str, dict[str, Any], str | None]] = {}
        self.sent = 0
        self.open_set = ""
        self.read: list[str] = []

    def home(self, *_: Any) -> Any:
        return sample.home()

    def units(self, *_: Any) -> Any:
        return sample.units()

    def lesson(self, parts: Any, person: Any, unit: str) -> Any:
        return replace(sample.lesson(), unit=unit, unit_name=sample.UNITS[unit])

    def mark_read(self, parts: Any, person: Any, unit: str) -> None:
        self.read.append(unit)

    def start(self, parts: Any, person: Any, unit: str | None = None) -> str:
        return "place"

    def scenario_page(
        self, parts: Any, person: Any, attempt: str, answered: str = ""
    ) -> ScenarioPage:
        if attempt not in self.attempts:
            raise refusals.NotFound("scenario")
        return self.attempts[attempt]

    def answer(
        self, parts: Any, person: Any, attempt: str, decision: str,
        response: dict[str, Any], key: str, phone_at: str | None,
    ) -> attempts.Taken:  # fmt: skip
        self.sent += 1
        page = self.attempts[attempt]
        if key not in self.answers:
            self._take(page, decision, response, key, phone_at)
        made = self.attempts[attempt]
        return attempts.Taken(attempt, decision, page.purpose, page.unit, made.done, page.set)

    def _take(
        self,
        page: ScenarioPage,
        decision: str,
        response: dict[str, Any],
        key: str,
        phone_at: str | None,
    ) -> None:
        if page.current is None or page.current.id != decision:
            raise refusals.Conflict("You have answered this already.")
        kind = next(d.kind for d in page.decisions if d.id == decision)
        verdict = judge(kind, response)
        self.answers[key] = (page.attempt, decision, response, phone_at)
        self.attempts[page.attempt] = self._after(page, decision, verdict)

    def _after(self, page: ScenarioPage, decision: str, verdict: Verdict) -> ScenarioPage:
        made = sample.with_verdict(page, decision, verdict)
        if not page.of:
            return made
        hidden = tuple(replace(d, verdict=None) for d in made.decisions)
        last = page.current is not None and page.current.id == page.decisions[-1].id
        waits = None if last else page.decisions[-1]
        return replace(made, decisions=hidden, current=waits)

    def prove_start(self, *_: Any) -> Any:
        return sample.prove_start(self.open_set)

    def prove_open(self, *_: Any) -> str:
        self.open_set = "s1"
        return "s1"

    def prove_next(self, *_: Any) -> str | None:
        return "form" if self.attempts["form"].current else None

    def prove_result(self, *_: Any) -> Any:
        return sample.prove_result()

    def my_record(self, *_: Any, before: str | None = None) -> Any:
        return replace(sample.record(), more=False, lines=()) if before else sample.record()

    def record_of(self, *_: Any, before: str | None = None) -> Any:
        return sample.record()

    def people_list(self, *_: Any, text: str = "") -> Any:
        return tuple(p for p in sample.people() if text.lower() in f"{p.name} {p.crew}".lower())


def sample_app(folder: Path) -> Flask:
    """The program on a database of its own in ``folder``, with the PEOPLE, all with PASSWORD."""
    settings = Settings(
        instance=folder,
        database=f"sqlite:///{folder / 'trainer.db'}",
        secret="for tests only, forty characters or more",
        argon2=Argon2Cost(memory_kib=8, passes=1),
    )
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(
            "trainer.app.require_current",
            lambda database: make_ready(database, "North roof", "UTC"),
        )
        app = create_app(settings)
    for name, role in PEOPLE.items():
        accounts.add_person(
            app.extensions["trainer"],
            accounts.NewPerson(
                name.title(), name, PASSWORD, (role,), crew="North", must_change_password=False
            ),
        )
    return app


def stand_in(patch: pytest.MonkeyPatch) -> SampleServices:
    """Put sample services in the place of the real ones until ``patch`` is undone."""
    services = SampleServices()
    for module in (answers, lessons, proving, scenarios, record_views):
        for name in ("practice", "learning", "attempts", "scenario_pages", "forms", "recordbook"):
            if hasattr(module, name):
                patch.setattr(module, name, services)
    return services


def sign_in(client: Any, name: str) -> None:
    """Sign a test client in through the page, as a person would."""
    page = BeautifulSoup(client.get("/sign-in").data, "html.parser")
    token = page.select_one("main [name=csrf_token]")["value"]
    fields = {"csrf_token": token, "name": name, "password": PASSWORD}
    assert client.post("/sign-in", data=fields).status_code == 303


def _two_decisions(attempt: str = "two") -> ScenarioPage:
    page = sample.scenario("go_stop", attempt)
    return replace(page, decisions=(sample.DECISIONS["go_stop"], sample.DECISIONS["choose"]))


def judge(kind: str, response: dict[str, Any]) -> Verdict:
    """As strict about shape as the real services, with one fixed right answer a kind."""
    return sample.RIGHT if _JUDGES[kind](response) else _wrong(kind)


def _wrong(kind: str) -> Verdict:
    return sample.DANGEROUS if kind in ("go_stop", "find", "mark") else sample.NOT_YET


def _row(kind: str) -> Callable[[dict[str, Any]], bool]:
    def check(response: dict[str, Any]) -> bool:
        if "row" not in response:
            raise MissingField("row", "one of the answers")
        return response["row"] == RIGHT_ROWS[kind]

    return check


def _place(response: dict[str, Any]) -> bool:
    return float(response["x_mm"]) >= 2100 if "x_mm" in response else _row("place")(response)


def _measure(response: dict[str, Any]) -> bool:
    try:
        return abs(float(response["value"]) - 40) <= 5
    except KeyError:
        raise MissingField("value", "one number in mm") from None
    except ValueError:
        raise InputError("value", response["value"], "one number in mm, with a point") from None


def _order(response: dict[str, Any]) -> bool:
    if "order" in response:
        return response["order"] == RIGHT_ORDER
    places = {name.removeprefix("place-"): int(n) for name, n in response.items()}
    if sorted(places.values()) != [1, 2, 3, 4, 5]:
        raise InputError("place", sorted(places.values()), "each place once")
    return "|".join(sorted(places, key=lambda step: places[step])) == RIGHT_ORDER


_JUDGES: dict[str, Callable[[dict[str, Any]], bool]] = {
    "place": _place,
    "measure": _measure,
    "order": _order,
    "mark": _row("mark"),
    "go_stop": _row("go_stop"),
    "choose": _row("choose"),
    "find": lambda response: set(response["rows"]) == FORBID_FLAME,
    "time": lambda response: response["time"] == "13:20",
}
