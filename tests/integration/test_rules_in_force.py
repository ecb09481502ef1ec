"""What is kept of the site's rules between pages never outlives a change of them."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from trainer.records.queries import people
from trainer.records.tables import SiteRule
from trainer.services import attempts
from trainer.services.scenarios import library
from trainer.services.standing import own_standing


@pytest.fixture
def scenario(parts, sign_in):
    ana = sign_in("ana")
    with parts.database.writing() as session:
        made = attempts.open_attempt(session, parts, ana, library(session), "chalk-line", seed=1)
        return ana, made.public_id


def test_a_site_rule_counts_on_the_very_next_page(parts, scenario):
    ana, attempt_id = scenario
    before = own_standing(parts, ana, attempt_id).shelf
    assert own_standing(parts, ana, attempt_id).shelf is before
    with parts.database.writing() as session:
        day = datetime(2026, 5, 4, tzinfo=UTC)
        session.add(
            SiteRule(subject="side-lap", value=150, unit="mm", reason="wind", person_id=ana.id,
                     set_at=day)
        )  # fmt: skip
    after = own_standing(parts, ana, attempt_id).shelf
    assert {rule.value for rule in after.rules.by_subject["side-lap"]} == {150}
    assert after.rules != before.rules


def test_another_profile_counts_on_the_very_next_page(parts, scenario):
    ana, attempt_id = scenario
    before = own_standing(parts, ana, attempt_id).shelf.rules.profile
    other = next(name for name in library().pack.book.profiles if name != before)
    with parts.database.writing() as session:
        people.site(session).profile = other
    assert own_standing(parts, ana, attempt_id).shelf.rules.profile == other
