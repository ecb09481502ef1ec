"""Every value of the rule book that came from a document, written once more beside its source.

The pages were read in the copies named; "secondary" pages restate a rule or a practice. Values from
memory and common practice without a source have no outside to be checked against; they are listed
at the end, so that none of them can slip in among the others. What has no number stands in
test_rulebook_words.py. Rule sets differ by place and edition: none of this is advice for a site.
"""

import pytest

from trainer.pack.rulebook import load_rulebook
from trainer.roofing.rulebook import COMMON_PRACTICE

BOOK = load_rulebook()

READ = {
    # UFGS 07550 (five-digit predecessor of 07 52 00), 3.3.6,
    # https://ufgscriteriadocreport.tpub.com/07550/075500030.htm
    "side-lap-ufgs": ["75 mm", "3 in"],
    "end-lap-ufgs": ["150 mm", "6 in"],
    "end-lap-stagger-ufgs": ["1 m", "36 in"],
    "ply-side-lap-offset-ufgs": ["300 mm", "12 in"],
    "ply-end-lap-offset-ufgs": ["1 m", "36 in"],
    # the same page, before 3.3.6: about 2 in above the top of the cant
    "base-ply-past-cant-ufgs": ["50 mm", "2 in"],
    # UFGS 07550, 3.2.4 and 3.2.5, page 075500026: 3 L to 10 m², 0.75 gal to 100 ft²; half an hour
    "primer-rate-ufgs": ["0.3 L/m²", "0.75 US gal/100 ft²"],
    "relaxing-time-ufgs": ["30 min"],
    # UFGS 07511, 3.3.11, https://ufgscriteriadocreport.tpub.com/07511/075110029.htm
    "cap-side-lap-ufgs": ["75 mm", "3 in"],
    "cap-end-lap-ufgs": ["150 mm", "6 in"],
    "dry-since-rain-ufgs": ["24 h"],
    # UFGS 07220, https://ufgscriteriadocreport.tpub.com/07220/072200009.htm
    "cold-storage-ufgs": ["24 h"],
    # Règles professionnelles, étanchéité sous protection lourde, January 2025: 6.2.3.2.1.1 and
    # 6.2.3.2.1.2 (pages 65 and 68), 7.2.4.1 (page 119)
    "side-lap-rp2025": ["60 mm"],
    "side-lap-rp2025-self-adhesive": ["60 mm"],
    "end-lap-rp2025": ["100 mm"],
    "end-lap-rp2025-loose-first-ply": ["60 mm"],
    "end-lap-stagger-rp2025": ["300 mm"],
    "ply-side-lap-offset-rp2025": ["100 mm"],
    "sheets-at-a-joint-rp2025": ["3"],  # T joints only, no cross joints
    "adhesive-lap-temperature-rp2025": ["5 °C"],
    "leg-on-field-rp2025": ["100 mm"],
    "finish-leg-on-field-rp2025": ["150 mm"],
    "finish-leg-past-base-leg-rp2025": ["50 mm"],
    # RCABC Roofing Practices Manual, SBS: part 10, 1.1 and 1.2.2 (rpm.rcabc.org, Part_10_-_SBS)
    "flashing-height-rcabc": ["200 mm", "8 in"],
    "flashing-height-door-sill-rcabc": ["100 mm", "4 in"],
    "fastener-above-waterproofing-rcabc": ["89 mm", "3 1/2 in"],
    # the same manual, SBS perimeter flashings of April 2016 and of October 2017
    "low-parapet-height-rcabc": ["3 1/2 in"],
    "outer-drop-rcabc": ["50 mm", "2 in"],
    "top-edge-fastener-spacing-rcabc": ["610 mm", "24 in"],
    # ARCA manual BUR-7.1, https://arcaonline.ca/bur-7, and MB-6.1.4
    "flashing-height-arca": ["200 mm", "8 in"],
    "flashing-height-door-sill-arca": ["100 mm", "4 in"],
    "coldest-work-arca": ["−18 °C", "0 °F"],
    "cold-work-wind-arca": ["14.5 km/h", "9 mph"],
    # VA 07 52 16.12, 01-01-21, writer's notes 7 and 11
    "flashing-height-va": ["200 mm", "8 in"],
    # Ontario Building Code 9.26.4.6(1), https://codeindex.ca/article/9.26.4.6
    "flashing-height-obc": ["150 mm", "6 in"],
    # CRCA Roofing Reference Manual, roofingcanada.com: 6.1, 4.2.2, 1.5.3, 1.3.10
    "primer-touch-dry-crca": ["60 min"],  # about 1 h
    "primer-firm-dry-crca": ["8 h"],  # 8 to 12 h
    "primer-coverage-most-crca": ["6 m²/L", "240 ft²/US gal"],
    "primer-coverage-least-crca": ["4 m²/L", "160 ft²/US gal"],
    "field-roller-mass-crca": ["32 kg", "70 lb"],
    "flame-to-crew-crca": ["3 m", "10 ft"],
    "cylinder-to-burner-crca": ["4.5 m", "15 ft"],
    "tank-to-burner-crca": ["7.6 m", "25 ft"],
    # CRCA bulletin 43B, July 1996: 6 to 12 in
    "flame-to-surface-crca": ["150 mm", "6 in"],
    "flame-to-surface-most-crca": ["300 mm", "12 in"],
    # CRCA advisory bulletin on flameless perimeters
    "flame-free-band-crca": ["915 mm", "3 ft"],
    # ARMA cold-weather recommendations, https://www.asphaltroofing.org
    "cold-storage-arma": ["24 h"],
    "cold-storage-from-arma": ["10 °C", "50 °F"],
    # University of Iowa Hospitals and Clinics, section 07550, page 12
    "bleed-out-uihc": ["6 mm", "1/4 in"],
    "lap-roller-mass-uihc": ["9 kg", "20 lb"],
    "roller-behind-torch-uihc": ["1.5 m", "5 ft"],
    # dew-point chart in °F: surface at least 5 °F above
    "surface-above-dew-point-5f": ["5 °F"],
    # 29 CFR 1910.252(a)(2)(iii), in the mirror WAC 296-307-49503
    "fire-watch-1910-252": ["30 min"],
    "combustibles-distance-1910-252": ["35 ft", "10.7 m"],
    # 29 CFR 1915.504(b) and (c)
    "fire-watch-1915-504": ["30 min"],
    "combustibles-distance-1915-504": ["35 ft", "10.7 m"],
    # local code in New York State, https://ecode360.com/29708856, items A to G
    "fire-watch-new-york-local": ["1 h"],
    # DGUV Information 201-054, 2.8.2.1
    "extinguishers-per-torch-dguv": ["1"],
    "extinguisher-units-dguv": ["6 LE"],
    # Chicago Municipal Code 15-26-470
    "combustibles-distance-chicago": ["10 ft", "3 m"],
    # 8 CCR 5417(c), http://www.dir.ca.gov/Title8/5417.html; the section before 1760
    "wet-primer-to-flame-california": ["25 ft", "7.6 m"],
    "extinguisher-class-b-california": ["10-B:C"],
    # International Fire Code 2018, 303.2, 3504.2.6 and 3504.3
    "kettle-to-combustibles-ifc": ["20 ft", "6096 mm"],
    "extinguisher-distance-ifc": ["30 ft", "9144 mm"],
    "extinguisher-class-a-ifc": ["2-A"],
    "extinguisher-class-b-ifc": ["20-B:C"],
    "permit-reviews-ifc": ["1"],
    # NYC Fire Code FC 3504.2.7.1.1, https://nacmiaslaw.com/resources/legal-codes/26459
    "watch-walking-distance-nyc": ["50 ft", "15240 mm"],
    "watchers-per-torch-nyc": ["1"],
    # Utah R614-7-1, http://www.rules.utah.gov/publicat/code/r614/r614-007.htm
    "kettle-attendant-distance-utah": ["100 ft", "30.5 m"],
    # Victorian Adult Burns Service; Eurobitume; Cornell LRP citing the Asphalt Institute; NCEC
    "burn-cooling-vicburns": ["20 min"],
    "burn-cooling-eurobitume": ["20 min"],
    "burn-cooling-us-roads": ["20 min"],
    "burn-cooling-ncec": ["15 min"],
    # Work at Height Regulations 2005, schedule 2, HSE answers; EN 13374:2013+A1
    "guardrail-height-uk": ["950 mm"],
    "guardrail-gap-uk": ["470 mm"],
    "toe-board-height-uk": ["100 mm"],
    "guardrail-height-en-13374": ["1 m"],
    "toe-board-height-en-13374": ["150 mm"],
    # WAC 296-880-40040(1) and -40045; WAC 296-155-24515(1) and -755(11), http://app.leg.wa.gov
    "warning-line-to-edge-washington": ["6 ft", "1.8 m"],
    "warning-line-to-edge-machines-washington": ["10 ft", "3.1 m"],
    "warning-line-to-edge-other-trades-washington": ["15 ft", "4.6 m"],
    "monitor-alone-roof-width-washington": ["50 ft"],
    "unprotected-edge-height-washington": ["10 ft", "3 m"],
    "ladder-above-landing-washington": ["3 ft", "0.9 m"],
    # 29 CFR 1926.501(b)(10), OSHA letters of 2001-01-16 and 2012-04-20
    "monitor-alone-roof-width-1926-501": ["50 ft", "15.25 m"],
}

SECONDARY = {
    # trade articles on T-joints
    "side-lap-trade-press": ["3 in"],
    "end-lap-trade-press": ["3 in"],
    "end-lap-stagger-trade-press": ["3 ft"],
    # NBS J41/630 and J40/350, as quoted in a public project specification of 2014
    "patch-lap-nbs": ["100 mm", "4 in"],
    "gusset-cover-as-patch": ["100 mm", "4 in"],
    "angle-strip-width-nbs": ["300 mm", "12 in"],
    # NF DTU 43.4 P1-1, October 2008, 9.3.1, unofficial copy
    "substrate-temperature-dtu": ["2 °C"],
    # public tender schedules; an open bill of materials: 0.015 × 20 L
    "primer-rate-india": ["0.4 L/m²"],
    "primer-rate-argentina": ["0.3 L/m²"],
    # ISO 8502-4 and ISO 12944-7 practice in two coating manuals
    "surface-above-dew-point-3k": ["3 °C"],
    "relative-humidity-coating": ["85 %"],
    # https://coderedconsultants.com/insights/updated-fire-watch-requirements/
    "fire-watch-nfpa-51b-2014": ["30 min"],
    "fire-watch-nfpa-51b-2019": ["60 min"],
    "fire-monitoring-nfpa-51b-2019": ["3 h"],
    "fire-watch-nfpa-241-2022": ["2 h"],
    # US Army Corps of Engineers, as reported at https://enr.com/articles/2706
    "fire-watch-usace": ["1 h"],
    # British institutional guidance, October 2007
    "fire-watch-uk-2007": ["1 h"],
    # O. Reg. 388/97, 5.17.3.1; summary of VdS-type rules
    "combustibles-distance-ontario": ["11 m"],
    "combustibles-distance-germany": ["10 m"],
    # IFC 303.3
    "cylinder-to-burner-ifc": ["10 ft", "3048 mm"],
    # 29 CFR 1926.150(c)(1)(i) and (vi), restated
    "extinguisher-distance-1926-150": ["100 ft", "30.5 m"],
    "extinguisher-distance-1926-150-gas": ["50 ft", "15.2 m"],
    "extinguisher-class-a-1926-150": ["2-A"],
    "extinguisher-area-1926-150": ["3000 ft²", "279 m²"],
    # 29 CFR 1926.502(b)(1) and (3): 42 in ± 3 in, parapet at least 39 in (1.0 m), restated
    "guardrail-height-1926-502": ["39 in", "1 m"],
    # University of Washington on WAC 296-880: 42 in parapet, protection from 4 ft
    "guardrail-height-uw": ["42 in"],
    "unprotected-edge-height-uw": ["4 ft", "1.2 m"],
    # 29 CFR 1926.501(b)(1), restated; British Columbia OHS Regulation 11.2, restated
    "unprotected-edge-height-1926-501": ["6 ft", "1.8 m"],
    "unprotected-edge-height-bc": ["3 m", "10 ft"],
    # 29 CFR 1926.1053(b)(1), OSHA letter of 2005-12-22 as quoted
    "ladder-above-landing-1926-1053": ["3 ft", "0.9 m"],
}

# common practice, no source: how the work is described by those who do it
PRACTICE = {
    "primer-plan-practice": ["120 min"],
    "primer-never-after-practice": ["180 min"],
    "lap-onto-field-practice": ["100 mm", "4 in"],
    "lap-clearance-practice": ["100 mm", "4 in"],
    "film-preheat-distance-practice": ["1 m", "3 ft"],
    "flame-to-unclosed-practice": ["1 m", "3 ft"],
    "tape-uncertainty-practice": ["2 mm"],
}

# nobody has read these in a text that carries weight
FROM_MEMORY = {
    "side-lap-bs8217", "side-lap-germany", "end-lap-bs8217", "corner-cut-leg-practice",
    "corner-cut-leg-most-practice", "leg-on-field-us-wording", "flashing-height-europe",
    "top-edge-fastener-spacing-us-wording", "self-adhered-temperature-low",
    "self-adhered-temperature-high", "field-roller-mass-practice", "bleed-out-practice",
    "bleed-out-most-practice", "combustibles-distance-nfc", "combustibles-distance-inrs",
    "wet-primer-to-flame-1926-152", "cylinder-to-heater-1926-153", "fire-watch-nfpa-1-241",
    "fire-watch-ifc-2018", "fire-watch-ifc-2021", "fire-watch-ufgs", "fire-watch-nfc",
    "fire-monitoring-nfc", "fire-watch-inrs", "extinguisher-distance-nyc",
    "extinguisher-distance-nfpa-older", "extinguisher-class-a-ifc-roofing",
    "extinguisher-class-a-nyc", "extinguisher-class-a-nfpa-older",
    "extinguisher-class-b-ifc-roofing", "extinguisher-class-b-nyc",
    "extinguisher-class-b-nfpa-older", "permit-kept-nyc", "wall-without-midrail-1926-502",
    "unprotected-edge-height-ontario", "control-zone-bc",
}  # fmt: skip

# what each number protects people from, so that none of them is weighed as a matter of quality
CRITICAL = [
    "fire-watch", "fire-monitoring", "flame-to-unclosed", "film-preheat-distance", "flame-to-crew",
    "wet-primer-to-flame", "cylinder-to-burner", "combustibles-distance", "flame-free-band",
    "burn-cooling", "extinguisher-distance", "guardrail-height", "unprotected-edge-height",
    "ladder-above-landing", "watchers-per-torch",
]  # fmt: skip
AT_MOST = [
    "primer-plan", "primer-never-after", "tape-uncertainty", "sheets-at-a-joint",
    "top-edge-fastener-spacing", "corner-cut-leg-most", "bleed-out-most", "flame-to-surface-most",
    "primer-coverage-most", "cold-work-wind", "relative-humidity", "roller-behind-torch",
    "kettle-attendant-distance", "watch-walking-distance", "extinguisher-distance",
    "extinguisher-area", "guardrail-gap", "unprotected-edge-height", "monitor-alone-roof-width",
]  # fmt: skip


def stated(rule):
    return [str(statement) for statement in rule.statements]


@pytest.mark.parametrize(("rule_id", "limit"), READ.items())
def test_a_value_read_in_its_document(rule_id, limit):
    rule = BOOK.rule(rule_id)
    assert (stated(rule), rule.status) == (limit, "read")


@pytest.mark.parametrize(("rule_id", "limit"), SECONDARY.items())
def test_a_value_read_second_hand(rule_id, limit):
    rule = BOOK.rule(rule_id)
    assert (stated(rule), rule.status) == (limit, "secondary")


@pytest.mark.parametrize(("rule_id", "limit"), PRACTICE.items())
def test_a_value_of_common_practice(rule_id, limit):
    rule = BOOK.rule(rule_id)
    assert (stated(rule), rule.source_text) == (limit, COMMON_PRACTICE)


@pytest.mark.parametrize("rule_id", sorted(FROM_MEMORY))
def test_a_value_from_memory_marks_nobody(rule_id):
    assert BOOK.rule(rule_id).status == "from memory"
    assert not BOOK.rule(rule_id).may_grade


def test_no_number_of_the_book_goes_unchecked():
    numbered = {rule.id for rule in BOOK.rules.values() if rule.statements}
    assert numbered == {*READ, *SECONDARY, *PRACTICE, *FROM_MEMORY}


def test_what_can_burn_or_drop_somebody_is_critical():
    assert [s for s in CRITICAL if BOOK.subject(s).severity != "critical"] == []


def test_which_limits_run_from_above():
    assert {s.id for s in BOOK.subjects.values() if s.direction == "at most"} == set(AT_MOST)


@pytest.mark.parametrize(
    ("rule_id", "low", "high"),
    [  # conflicts and traps of the reference: soft conversions that are not the same length
        ("side-lap-ufgs", 75.0, 76.2),
        ("end-lap-ufgs", 150.0, 152.4),
        ("flashing-height-rcabc", 200.0, 203.2),
        ("ply-side-lap-offset-ufgs", 300.0, 304.8),
        ("end-lap-stagger-ufgs", 914.4, 1000.0),
        ("monitor-alone-roof-width-1926-501", 15240.0, 15250.0),
        ("guardrail-height-1926-502", 990.6, 1000.0),
    ],
)
def test_both_statements_of_one_limit_keep_their_own_length(rule_id, low, high):
    rule = BOOK.rule(rule_id)
    assert (rule.low, rule.high) == (low, high)


def test_five_degrees_fahrenheit_are_not_three_kelvin():
    """5 °F = 2.78 °C: a spread of 2.81 °C fails under 3 °C and passes under 5 °F."""
    assert BOOK.rule("surface-above-dew-point-5f").value < 2.81
    assert BOOK.rule("surface-above-dew-point-3k").value > 2.81


@pytest.mark.parametrize(
    ("profile", "minutes"),
    [  # "the torch went out at 15:10": 15:40, 15:40, 16:10, 17:10, 16:10
        ("ufgs-1910", 30),
        ("nfpa-51b-2014", 30),
        ("nfpa-51b-2019", 60),
        ("nfpa-241-2022-massachusetts", 120),
        ("usace", 60),
        ("site-default", 120),
    ],
)
def test_the_watch_under_each_rule_set(profile, minutes):
    in_force = BOOK.in_force(profile)
    assert in_force.value("fire-watch") == minutes
    assert in_force.may_grade("fire-watch")


def test_monitoring_runs_three_hours_after_the_hour_of_the_2019_edition():
    for profile in ("nfpa-51b-2019", "site-default"):
        in_force = BOOK.in_force(profile)
        watch = BOOK.rule("fire-watch-nfpa-51b-2019")
        assert [rule.value for rule in in_force.following(watch)] == [180.0]
