"""Families that the rules of a site spoil: not drawn there, and said so.

A site may set a limit at which a family's values make no sense any more: what was drawn to be good
comes out bad, or lies so near the limit that nobody could tell. Nobody is marked by that.
"""

from __future__ import annotations

import logging
from collections.abc import Mapping

from trainer.engine.solve import lacking
from trainer.engine.spec import Family
from trainer.engine.trial import upside_down
from trainer.pack.pack import Pack
from trainer.roofing.rulebook import InForce

_log = logging.getLogger("trainer.services")


def unfit(pack: Pack, rules: InForce) -> Mapping[str, str]:
    """Why families are left out under ``rules``: by family, a sentence with rule and value.

    Only families are tried for which other values are in force than the rule book's own.
    """
    usual = pack.book.in_force()
    reasons = {family.id: _reason(family, rules, usual) for family in pack.families.values()}
    found = {family: reason for family, reason in reasons.items() if reason}
    for reason in found.values():
        _log.warning(reason)
    return found


def _reason(family: Family, rules: InForce, usual: InForce) -> str:
    if lacking(family, rules):
        return ""  # left out anyway, for want of a rule
    changed = [s for s in dict.fromkeys(family.rules.values()) if _differs(s, rules, usual)]
    why = upside_down(family, rules, usual) if changed else ""
    if not why:
        return ""
    said = ", ".join(f"{subject} {rules.rule(subject).say()}" for subject in changed)
    return f"The family {family.id} is not drawn under the rules in force here ({said}): {why}."


def _differs(subject: str, rules: InForce, usual: InForce) -> bool:
    if subject not in usual.by_subject:
        return True
    return rules.rule(subject) != usual.rule(subject)
