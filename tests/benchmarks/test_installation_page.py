"""A decision of an installation and the page after it, beside a practise answer and its page.

On one server, in turns in one run; the decisions are those of a whole day by the book, sent as a
phone sends them. ``pytest tests/benchmarks/test_installation_page.py --benchmark-enable -s``.
What fails here is a decision that was refused or lost, never one that was slow.
"""

from __future__ import annotations

import statistics
from itertools import count

from site_at_work import answer, signed_in

from trainer.app import make_parts
from trainer.installation.limits import limits_of
from trainer.installation.play import play
from trainer.pack.jobs import clear_mm_of
from trainer.pack.pack import load_pack
from trainer.services import sessions
from trainer.services.installations.store import open_installation

GOAL = 2.5
JOB, SEED = "inside-corner", 1
_keys = count(10**6)


def test_a_decision_and_its_page_beside_an_answer_and_its_page(at_work, report):
    pack = load_pack()
    rules = pack.book.in_force()
    job = pack.jobs[JOB].drawn(SEED, clear_mm_of(rules))
    decisions = play(job, limits_of(rules)).decisions
    client, token = signed_in(at_work.ours)
    path = f"/installation/{_opened(at_work)}"
    scenarios = at_work.open_scenarios(len(decisions))
    for address, _ in scenarios:
        client.get(address.rpartition("/")[0])
    ratios, ours = [], []
    for number, (decision, scenario) in enumerate(zip(decisions, scenarios, strict=True)):
        whole = _decide(client, token, path, number, decision)
        floor = answer(client, token, scenario) + _page(client, client.location)
        ratios.append(whole / floor)
        ours.append(whole)
    report(
        p50_decision_to_answer=statistics.median(ratios),
        last_third=statistics.median(ratios[-len(ratios) // 3 :]),
        p50_ms=statistics.median(ours) * 1000,
        goal=GOAL,
    )


def _opened(at_work) -> str:
    parts = make_parts(at_work.settings)
    ana = sessions.signed_in(parts, sessions.sign_in(parts, "ana", "gravel stops the bucket slide"))
    opened = open_installation(parts, ana, JOB, seed=SEED)
    parts.database.close()
    return opened


def _decide(client, token, path, number, decision) -> float:
    fields = {k: _typed(v) for k, v in decision.items()}
    sent = {**token, **fields, "after": str(number), "key": f"{next(_keys):016d}"}
    waited = client.post(f"{path}/decision", sent)
    assert client.status == 303, client.body
    return waited + _page(client, client.location)


def _typed(value) -> str | list[str]:
    return [str(part) for part in value] if isinstance(value, list) else str(value)


def _page(client, location) -> float:
    waited = client.get(location.partition("#")[0])
    assert client.status == 200, client.status
    return waited
