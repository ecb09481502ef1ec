"""The form token: the same for all pages of a session, and worth nothing in another."""

from __future__ import annotations


def token(visitor) -> str:
    return visitor.visit("/settings").page.select_one("main [name=csrf_token]")["value"]


def test_the_pages_of_a_session_share_a_token_and_other_sessions_cannot_use_it(signed_in):
    ana, ben = signed_in("ana"), signed_in("ben")
    hers = token(ana)
    assert token(ben) != hers
    assert token(ana) == hers
    assert ben.post("/practise", {"csrf_token": hers}).status == 400
    assert ana.post("/practise", {"csrf_token": hers}).status == 200
