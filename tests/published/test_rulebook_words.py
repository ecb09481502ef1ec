"""Every rule without a number, and what its document asks for, written once more in key words.

Each entry names the page that was read and lists, in our words, the things that it asks for: a
rule that loses one of them, or that softens it, fails here. Rule sets differ by place and edition:
none of this is advice for a site.
"""

import pytest

from trainer.pack.rulebook import load_rulebook

BOOK = load_rulebook()

READ = {
    # 29 CFR 1910.252(a)(2)(iii), in the mirror WAC 296-307-49503(3): four triggers, any one enough;
    # http://app.leg.wa.gov/wac/default.aspx?cite=296-307-49503
    "watch-when-1910-252": [
        "more than a minor fire", "any one of four", "nearer", "farther away", "easily lit",
        "openings in walls or floors", "hidden spaces", "far side of a metal wall", "roof",
    ],
    "watch-duties-1910-252": [
        "gear at hand", "trained", "how to raise the alarm", "all exposed areas",
        "only what the gear can clearly handle", "otherwise raises the alarm",
    ],
    # 29 CFR 1915.504(b) and (c), http://laws9.com/cfr/text/29/1915/504
    "watch-no-other-duty-1915-504": ["no other duties", "may stop the work"],
    # local code in New York State, https://ecode360.com/29708856, items A to G
    "last-inspection-new-york-local": ["before leaving", "all areas are cool", "no smoke"],
    # CRCA Roofing Reference Manual 1.5.3, 1.3.10, 1.3.7, 6.1, 1.9.3, https://roofingcanada.com
    "last-inspection-crca": ["supervisor", "hot spots", "after all torches are out"],
    "gas-leak-test-crca": ["soap solution", "leak fluid", "before lighting", "never with a flame"],
    "smell-of-gas-crca": ["stop", "repair", "any smell or leak"],
    "gas-shut-down-crca": ["cylinder valve", "burn out", "burner valve", "never leave gas"],
    "cylinder-upright-crca": [
        "upright at all times", "collar on", "regulator off when idle",
        "relief valve pointing away from the burner",
    ],
    "cylinder-below-ground-crca": ["none unless it cannot be avoided", "heavier than air"],
    "primer-ahead-crca": ["only what will be covered before it gets dusty", "no pools"],
    "roll-storage-crca": ["on end", "raised", "dry", "no long-term cover"],
    # CRCA bulletins 43A and 43B (July 1996), https://roofingcanada.com/bulletin/
    "film-grade-crca": ["film are for torching", "sanded sheets for mopping", "not swapped"],
    "torch-pace-crca": ["each day", "stop", "pull back", "look at the weld", "set the pace"],
    # Los Angeles Municipal Code 57.324.18.1.1, https://codelibrary.amlegal.com/codes/los_angeles
    "watch-log-los-angeles": ["date", "name", "title", "area", "start and stop", "any fire",
                              "signed closing statement each day"],
    # International Fire Code 2018, 3504.2.4 and 3504.1.2, https://online.flipbuilder.com/mewf/eofz
    "extinguisher-training-ifc": ["both", "torch", "watch"],
    "openings-covered-ifc": ["walls, floors, ducts and shafts", "tightly covered", "shielded"],
    # WAC 296-24-69501, https://app.leg.wa.gov/WAC/default.aspx?cite=296-24-69501
    "hazard-order-washington": ["move the work", "move the fire hazards", "shield", "no hot work"],
    # WAC 296-67-351, https://app.leg.wa.gov/WAC/default.aspx?cite=296-67-351
    "permit-content-washington": ["dates and times", "ends", "place and equipment",
                                  "name and employer", "precautions", "before the start"],
    # WAC 296-304-03009; 296-155-755(7) and (9); 296-880-40045, https://app.leg.wa.gov
    "solvent-rags-washington": ["covered", "metal container"],
    "hot-bitumen-lifting-washington": ["never carried up a ladder", "nobody under a hoisted load"],
    "monitor-duties-washington": ["competent", "authority", "told apart at once",
                                  "no other duties", "weather"],
    # RCABC Roofing Practices Manual, SBS, part 10, 1.2.2 (rpm.rcabc.org, Part_10_-_SBS)
    "torch-to-combustible-rcabc": ["strictly prohibited"],
    "flameless-instead-rcabc": ["surface burns", "openings or structures close by"],
    # NRCA technical column, https://professionalroofing.net/Articles/Tech-Today--05-01-2004/463
    "combustible-deck-nrca": ["thermal barrier", "does not burn", "before torching", "cant strips"],
    "air-intakes-nrca": ["under suction", "draw flame in", "not ordered blindly"],
    # DGUV Information 201-054, 2.8.1, https://www.arbeitssicherheit.de/schriften/dokument/0:7469091
    "fire-watch-dguv": ["risk assessment"],
    "lit-torch-left-dguv": ["never unattended", "stable", "rest that does not burn"],
    "gas-for-the-shift-dguv": ["the shift needs", "out of the danger zone"],
    # Victorian Adult Burns Service; Eurobitume card; Cornell LRP citing the Asphalt Institute
    "burn-first-aid-vicburns": ["cool", "leave the bitumen on the skin", "keep the person warm",
                                "airway", "all round", "urgent", "hospital"],
    "burn-first-aid-eurobitume": ["tepid water first", "only medical staff remove", "card"],
    "burn-first-aid-us-roads": ["do not remove", "do not cover", "call for help"],
    # ARCA manual MB-6.1.4, https://www.arcaonline.ca/node/53; BUR-7.1 and TP-7.1
    "wet-weather-arca": ["none in rain, snow"],
    "flashing-with-field-arca": ["as the field goes forward"],
    # UFGS 07550, 3.2.4 to 3.2.4.2, https://ufgscriteriadocreport.tpub.com/07550/075500026.htm
    "wet-surface-ufgs": ["concrete and masonry", "check that they are dry"],
    "primer-when-wet-ufgs": ["dry before it is covered", "nothing flammable", "torches"],
    "primed-surfaces-ufgs": ["every surface that an adhered sheet goes on", "metal flanges"],
    # UFGS 07550, 3.3.6, https://ufgscriteriadocreport.tpub.com/07550/075500030.htm
    "backwater-laps-ufgs": ["none", "shingled to shed water"],
    "course-direction-ufgs": ["across the slope up to 1 in 6", "along the slope"],
    "open-laps-ufgs": ["sealed again before the next ply"],
    "plies-same-day-ufgs": ["same working day", "maker of the sheet", "agrees"],
    # UFGS 07550, 3.4, 3.4.1 and 3.4.2 (the text was returned without an address)
    "end-of-day-seal-ufgs": ["cut-off sealed to the edge", "taken off at the restart",
                             "deck flutes closed", "drains, curbs, walls and edges"],
    # UFGS 07511, 3.3.11, https://ufgscriteriadocreport.tpub.com/07511/075110029.htm
    "t-joint-cut-ufgs": ["45°", "sheet that will be covered", "in the end lap", "before"],
    # University of Iowa Hospitals and Clinics, section 07550, pages 5 and 12
    "wet-materials-uihc": ["taken out", "dried", "built again"],
    "bleed-out-granules-uihc": ["at once", "flows"],
    "defects-rejected-uihc": ["voids", "blisters", "fishmouths", "wrinkles", "ridges",
                              "loose or dry laps"],
    # Règles professionnelles, January 2025: 7.2.4.1, 6.2.3.2.1.2, 6.2.3.2.4
    "lap-clearance-rp2025": ["offset from the joints of the field", "no distance given"],
    "adhesive-lap-rolled-rp2025": ["rolled"],
    "end-of-day-seal-rp2025": ["first ply welded", "confirmed with the flame", "every upstand",
                               "a way out for water"],
    # https://www.asphaltroofing.org/self-adhesive-modified-bituminous-roofing-membranes/
    "release-film-arma": ["protects the adhesive", "comes off"],
}  # fmt: skip

SECONDARY = {
    # 29 CFR 1926.352(e), NIOSH caption, https://elcosh.org/image/775/i000284/284.html
    "fire-watch-1926-352": ["until fire is no longer possible"],
    # British institutional guidance, October 2007
    "watch-walk-uk-2007": ["without a break", "floors above and below", "far side of walls"],
    # NF DTU 43.4 P1-1, October 2008, 9.3.1, unofficial copy
    "wet-surface-dtu": ["dry", "clean"],
    # NBS J40/350, as quoted in a public project specification of 2014
    "reinforce-before-main-nbs": ["before the main sheet"],
    # ARMA paper on self-adhesive sheets, copy on a third-party site
    "rolls-in-the-sun-arma": ["carton", "opaque wrap", "out of direct sun"],
}

# what is not about people and fire; all else in words is critical
QUALITY = {
    "lap-clearance", "watch-log", "torch-pace", "film-grade", "wet-weather", "wet-surface",
    "wet-materials", "primed-surfaces", "primer-ahead", "roll-storage", "rolls-in-the-sun",
    "release-film", "backwater-laps", "course-direction", "open-laps", "plies-same-day",
    "adhesive-lap-rolled", "t-joint-cut", "reinforce-before-main", "flashing-with-field",
    "bleed-out-granules", "defects-rejected", "end-of-day-seal",
}  # fmt: skip


@pytest.mark.parametrize(
    ("rule_id", "asked", "status"),
    [
        *((rule_id, asked, "read") for rule_id, asked in READ.items()),
        *((rule_id, asked, "secondary") for rule_id, asked in SECONDARY.items()),
    ],
)
def test_a_rule_in_words_asks_for_what_its_document_asks_for(rule_id, asked, status):
    rule = BOOK.rule(rule_id)
    assert (rule.statements, rule.status) == ((), status)
    assert [words for words in asked if words not in rule.in_words] == []


def test_no_rule_in_words_goes_unchecked():
    assert {r.id for r in BOOK.rules.values() if not r.statements} == {*READ, *SECONDARY}


def test_what_is_said_in_words_and_can_hurt_somebody_is_critical():
    in_words = {r.subject for r in BOOK.rules.values() if not r.statements}
    assert {s for s in in_words if BOOK.subject(s).severity == "quality"} == QUALITY


def test_the_gas_is_shut_down_from_the_cylinder_to_the_burner():
    """CRCA manual 1.3.10: 1 cylinder valve, 2 let the hose burn out, 3 burner valve."""
    words = BOOK.rule("gas-shut-down-crca").in_words
    steps = [words.index(step) for step in ("cylinder valve", "burn out", "burner valve")]
    assert steps == sorted(steps)


def test_hazards_are_moved_before_they_are_shielded():
    """WAC 296-24-69501: the work, else the hazards, else shields, else no hot work."""
    words = BOOK.rule("hazard-order-washington").in_words
    order = ("move the work", "move the fire hazards", "shield", "no hot work")
    assert [words.index(step) for step in order] == sorted(words.index(step) for step in order)


@pytest.mark.parametrize("rule_id", [*READ, *SECONDARY])
def test_a_rule_in_words_may_mark_on_the_demonstration_site_where_it_is_in_force(rule_id):
    in_force = BOOK.in_force()
    subject = BOOK.rule(rule_id).subject
    assert subject in in_force.by_subject
    assert in_force.may_grade(subject)
