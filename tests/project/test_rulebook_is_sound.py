"""The pack's own rule book: complete, honest about what it knows, told truly in docs/rules.md."""

import re
from collections import defaultdict
from pathlib import Path

import pytest

from trainer.pack.positions import read
from trainer.pack.rulebook import DEFAULT, load_rulebook
from trainer.roofing.rulebook import COMMON_PRACTICE

BOOK = load_rulebook()
ROOT = Path(__file__).parents[2]
RULES_PAGE = (ROOT / "docs" / "rules.md").read_text("utf-8")

NEEDED = [
    "primer-plan", "primer-never-after", "lap-onto-field", "side-lap", "end-lap",
    "end-lap-stagger", "lap-clearance", "film-preheat-distance", "flame-to-unclosed",
    "cylinder-to-burner", "flame-to-crew", "surface-above-dew-point", "fire-watch",
    "fire-monitoring", "flashing-height", "leg-on-field", "tape-uncertainty", "gusset-cover",
    "wet-primer-to-flame", "flame-free-band", "cold-storage", "relaxing-time", "burn-cooling",
    "primer-rate", "guardrail-height", "extinguisher-distance",
]  # fmt: skip


@pytest.mark.parametrize("subject", NEEDED)
def test_the_demonstration_site_has_a_value_for_everything_scenarios_lean_on(subject):
    assert BOOK.in_force().value(subject) > 0


def test_nothing_from_memory_is_in_force_on_the_demonstration_site():
    in_force = BOOK.in_force()
    assert [s for s in in_force.by_subject if not in_force.may_grade(s)] == []


def test_no_rule_arrives_confirmed():
    """Only a person at the site confirms a value from memory; the pack cannot."""
    assert [r.id for r in BOOK.rules.values() if r.confirmed_by or r.confirmed_on] == []


@pytest.mark.parametrize("rule", BOOK.rules.values(), ids=lambda rule: rule.id)
def test_a_rule_is_well_formed(rule):
    assert rule.id.startswith(rule.subject)
    assert rule.statements or rule.in_words
    assert len({s.unit for s in rule.statements}) == len(rule.statements)
    assert rule.sentence().endswith(".")
    assert rule.may_grade is (rule.status != "from memory")
    if rule.statements:
        assert rule.low <= rule.value <= rule.high or rule.high <= rule.value <= rule.low
        assert rule.say() and rule.say("us")
    if rule.source_text == COMMON_PRACTICE:
        assert rule.status != "read", "what has no source cannot have been read in one"


@pytest.mark.parametrize("subject", BOOK.subjects)
def test_a_subject_has_a_rule_and_all_its_rules_limit_the_same_side(subject):
    rules = BOOK.competing(subject)
    assert rules
    assert len({(r.direction, r.unit) for r in rules}) == 1


def test_every_document_is_cited():
    content = read(DEFAULT).value
    cited = {
        rule["source"]["document"]
        for subject in content["subjects"].values()
        for rule in subject["rules"].values()
        if isinstance(rule["source"], dict)
    }
    assert cited == set(content["documents"])


def test_a_rule_that_follows_another_is_of_another_subject_and_the_same_document():
    for rule in (r for r in BOOK.rules.values() if r.follows):
        first = BOOK.rule(rule.follows)
        assert first.subject != rule.subject
        assert first.source.document == rule.source.document


def test_monitoring_is_in_force_only_behind_its_watch():
    for profile in BOOK.profiles:
        in_force = BOOK.in_force(profile)
        for rule in in_force.by_subject.get("fire-monitoring", ()):
            assert rule.follows in {r.id for r in in_force.rules("fire-watch")}


@pytest.mark.parametrize("profile", BOOK.profiles)
def test_one_limit_a_subject_save_the_fire_watch(profile):
    in_force = BOOK.in_force(profile)
    several = {s for s, rules in in_force.by_subject.items() if len(rules) > 1}
    assert several <= {"fire-watch"}


@pytest.mark.parametrize(
    ("profile", "foreign"),
    [
        ("rp-2025-france", ("ufgs", "cfr", "crca", "ifc")),
        ("ufgs-ifc-2018", ("rp2025", "crca", "dguv")),
        ("canada", ("ufgs", "rp2025", "1926", "ifc")),
    ],
)
def test_a_rule_set_of_one_country_holds_nothing_of_another(profile, foreign):
    ids = [r.id for rules in BOOK.in_force(profile).by_subject.values() for r in rules]
    assert [i for i in ids if any(word in i for word in foreign)] == []


def test_conflicts_are_kept_apart():
    """Each pair contradicts the other in print; neither may be lost or merged."""
    for one, other in (
        ("side-lap-ufgs", "side-lap-rp2025"),
        ("end-lap-ufgs", "end-lap-rp2025"),
        ("end-lap-stagger-ufgs", "end-lap-stagger-rp2025"),
        ("flashing-height-rcabc", "flashing-height-obc"),
        ("surface-above-dew-point-3k", "surface-above-dew-point-5f"),
        ("cylinder-to-burner-crca", "cylinder-to-burner-ifc"),
        ("fire-watch-nfpa-51b-2014", "fire-watch-nfpa-51b-2019"),
        ("combustibles-distance-1910-252", "combustibles-distance-chicago"),
        ("top-edge-fastener-spacing-rcabc", "top-edge-fastener-spacing-us-wording"),
        ("guardrail-height-1926-502", "guardrail-height-uk"),
    ):
        first, second = BOOK.rule(one), BOOK.rule(other)
        assert first.subject == second.subject
        assert first.value != second.value


def test_texts_are_plain_words():
    for rule in BOOK.rules.values():
        for text in (rule.note, rule.in_words, rule.name, rule.guards):
            assert "http" not in text
            assert not text.endswith(".")


# ---- docs/rules.md --------------------------------------------------------------------------


def rows(heading):
    """The table rows under a heading, as lists of cells."""
    section = RULES_PAGE.split(f"## {heading}\n")[1].split("\n## ")[0]
    lines = [line for line in section.splitlines() if line.startswith("| ")][1:]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]


def conflicting():
    found = defaultdict(list)
    for rule in BOOK.rules.values():
        found[rule.subject].append(rule)
    return {
        subject: rules
        for subject, rules in found.items()
        if len({(r.low, r.high, r.in_words) for r in rules}) > 1
    }


def test_the_page_shows_every_conflict_as_the_book_has_it():
    told = [
        (limit, rule.strip("`"), status)
        for _, limit, rule, status in rows("Conflicts, side by side")
    ]
    assert told == [
        (
            f"{r.direction} {' / '.join(map(str, r.statements))}" if r.statements else r.in_words,
            r.id,
            r.status,
        )
        for rules in conflicting().values()
        for r in rules
    ]


def test_the_page_names_every_profile():
    told = {profile.strip("`"): name for profile, name in rows("Profiles")}
    assert told == {p.id: p.name for p in BOOK.profiles.values()}


def test_the_examples_on_the_page_are_what_the_book_says():
    quoted = re.findall(r"^> (.+)$", RULES_PAGE, re.MULTILINE)
    assert quoted == [
        BOOK.in_force().sentence("side-lap"),
        BOOK.in_force().sentence("side-lap", "us"),
        BOOK.in_force("ufgs-ifc-2018").sentence("fire-watch"),
    ]
