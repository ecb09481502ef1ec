"""What is open to strangers, and the headers around every page."""

from __future__ import annotations

import re

import pytest

FILES = {"static", "learn.script"}
OPEN = {"account.sign_in", "account.sign_out", "status.public_check"} | FILES


def test_strangers_reach_the_sign_in_pages_and_the_status_alone(app, client):
    """Matrix of roles and actions: anonymous callers may use only these (ASVS 5.0, chapter 8)."""
    refused = set()
    for rule in app.url_map.iter_rules():
        path = re.sub(r"<[^>]+>", "x", rule.rule)
        method = "POST" if "POST" in rule.methods else "GET"
        answer = client.open(path, method=method, headers={"Accept": "application/json"})
        if answer.status_code == 401:
            refused.add(rule.endpoint)
    assert refused == {rule.endpoint for rule in app.url_map.iter_rules()} - OPEN


def test_the_status_says_ok_and_nothing_else(client):
    answer = client.get("/status")
    assert (answer.status_code, answer.json) == (200, {"status": "ok"})


def test_the_status_notices_records_that_cannot_be_read(app, client, monkeypatch):
    from trainer.services.refusals import DatabaseBusy

    def busy(_parts):
        raise DatabaseBusy

    monkeypatch.setattr("trainer.services.site.site", busy)
    assert client.get("/status").status_code == 503


@pytest.mark.parametrize("path", ["/sign-in", "/no-such-page", "/status", "/settings"])
def test_every_answer_is_protected(client, path):
    headers = client.get(path).headers
    policy = headers["Content-Security-Policy"]
    assert "default-src 'self'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "unsafe" not in policy
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "same-origin"
    assert headers["Cache-Control"] == "no-store"


@pytest.mark.parametrize(("scheme", "secure"), [("http", False), ("https", True)])
def test_the_cookie_is_for_us_alone(client, scheme, secure):
    cookie = client.get("/sign-in", base_url=f"{scheme}://localhost").headers["Set-Cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Lax" in cookie
    assert ("Secure" in cookie) == secure


def test_a_page_loads_nothing_from_elsewhere_and_runs_nothing_inline(visitor):
    visitor.visit("/sign-in")
    for tag in visitor.page.select("[src], link[href]"):
        assert (tag.get("src") or tag["href"]).startswith(("/static/", "/scripts/"))
    assert not [tag for tag in visitor.page.select("script") if tag.string]
    assert not visitor.page.select("[style], style")


def test_static_files_are_kept_under_the_address_of_their_content(visitor):
    visitor.visit("/sign-in")
    address = visitor.page.select_one("link[rel=stylesheet]")["href"]
    kept = visitor.client.get(address).headers["Cache-Control"]
    assert re.search(r"\?v=[0-9a-f]{12}$", address)
    assert "immutable" in kept
    assert "max-age=31536000" in kept
    bare = visitor.client.get(address.partition("?")[0])
    assert "immutable" not in bare.headers["Cache-Control"]
    assert bare.headers["Cache-Control"] != "no-store"


def test_a_changed_file_has_another_address(tmp_path):
    from trainer.web.assets import version

    path = tmp_path / "site.css"
    path.write_text("a {}")
    first = version(path)
    path.write_text("b {}  ")
    assert version(path) not in (first, None)
    assert version(tmp_path / "missing.css") is None


def test_the_address_of_the_visitor_comes_from_a_trusted_proxy_only(settings, clock):
    from dataclasses import replace

    from trainer.app import create_app

    for proxies, secure in ((0, False), (1, True)):
        app = create_app(replace(settings, trusted_proxies=proxies), clock)
        answer = app.test_client().get("/sign-in", headers={"X-Forwarded-Proto": "https"})
        assert ("Secure" in answer.headers["Set-Cookie"]) == secure
