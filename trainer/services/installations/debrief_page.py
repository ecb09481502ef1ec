"""Looking back on an installation: what the rules say of it, and beside that how long it took.

The verdict is by the rules alone. Time, sheet and primer stand beside it, next to the best day that
was possible; they never change it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.engine.measures import say_number
from trainer.installation.debrief import Wasted, wasted
from trainer.installation.laps import missing
from trainer.installation.state import Finding
from trainer.services.installations.best_day import BestDay, LookedBack, Progress
from trainer.services.installations.ending import end_page
from trainer.services.installations.figures import Day, day_figure, day_of
from trainer.services.installations.figures import Found as FoundMark
from trainer.services.installations.standing import Standing
from trainer.services.installations.words import Voice, voice_of
from trainer.services.installations.words_decisions import decided
from trainer.services.installations.words_findings import FindingLine, Telling, line
from trainer.services.person import SignedIn

_L_PER_US_GAL = 3.785411784
"""231 cubic inches, the inch 25.4 mm exactly (NIST Handbook 44, Appendix C)."""
_AFTER_THE_END_MIN = 5
_ON_A_PHONE, _AT_A_DESK = 358, 580


@dataclass(frozen=True)
class Whose:
    """Somebody else whose installation is read: public id and name."""

    id: str
    name: str


@dataclass(frozen=True)
class Numbered:
    """A finding under the number it has on the time line."""

    number: str
    line: FindingLine


@dataclass(frozen=True)
class OfOneRule:
    """A rule, and everything found against it in order of time."""

    rule: str
    critical: bool
    found: tuple[Numbered, ...]


@dataclass(frozen=True)
class Compared:
    """What stands beside the verdict. ``dearest`` is empty where no decision stood out."""

    ends: tuple[str, ...]
    spent: tuple[str, ...]
    dearest: tuple[str, ...]


@dataclass(frozen=True)
class DebriefPage:
    """A finished installation, looked back on. ``whose``: None for who decided it.

    ``compared`` is None while the best day is worked out, or where that ``failed``; ``figures``
    are the same time lines, for a phone and for a desk.
    """

    id: str
    job: str
    title: str
    purpose: str
    whose: Whose | None
    look: str
    headline: str
    counts: str
    unfinished: tuple[str, ...]
    rules: tuple[OfOneRule, ...]
    figures: tuple[str, str]
    compared: Compared | None
    failed: bool

    @property
    def waiting(self) -> bool:
        return self.compared is None and not self.failed


def debrief_page(
    reader: SignedIn, standing: Standing, progress: Progress, whose: Whose | None = None
) -> DebriefPage:
    """An installation that has ended, for who decided it or, with ``whose``, for another reader."""
    voice, best = voice_of(reader), progress.found
    end = end_page(reader, standing)
    return DebriefPage(
        id=end.id,
        job=end.job,
        title=end.title,
        purpose=end.purpose,
        whose=whose,
        look="right" if end.clean else "critical" if end.critical else "not-yet",
        headline=end.headline,
        counts=end.counts,
        unfinished=end.unfinished,
        rules=_by_rule(voice, standing),
        figures=_figures(voice, standing, best, whose),
        compared=_compared(voice, standing, best) if best else None,
        failed=progress.failed,
    )


def _in_order(findings: Sequence[Finding]) -> list[Finding]:
    return sorted(findings, key=lambda finding: finding.at)


def _by_rule(voice: Voice, standing: Standing) -> tuple[OfOneRule, ...]:
    """Critical rules first, then in order of time; numbers run through the day."""
    telling = Telling(voice, standing.job, standing.state, standing.shelf.rules)
    groups: dict[tuple[bool, str], list[Numbered]] = {}
    for number, finding in enumerate(_in_order(standing.state.findings), start=1):
        told = line(telling, finding, standing.decisions)
        groups.setdefault((told.critical, told.rule), []).append(Numbered(str(number), told))
    found = [OfOneRule(rule, grave, tuple(group)) for (grave, rule), group in groups.items()]
    return tuple(sorted(found, key=lambda group: not group.critical))


def _figures(
    voice: Voice, standing: Standing, best: LookedBack | None, whose: Whose | None
) -> tuple[str, str]:
    job, state, say = standing.job, standing.state, voice.say
    name = say("The day of %(name)s") % {"name": whose.name} if whose else say("Your day")
    ended = state.ended or state.now
    days = [day_of(job, state.log, name=name, ended=ended, say=say)]
    if best:
        day = best.forecast
        name = say("The best day found, by this morning’s forecast")
        days.append(day_of(job, day.log, name=name, ended=day.end, say=say))
    last = max([ended, *([best.forecast.end] if best else [])]) + _AFTER_THE_END_MIN
    found = [
        FoundMark(finding.at, str(number), finding.severity == "critical")
        for number, finding in enumerate(_in_order(state.findings), start=1)
    ]
    return (
        _drawn(voice, days, (job.start, last), found, "days", _ON_A_PHONE),
        _drawn(voice, days, (job.start, last), found, "days-wide", _AT_A_DESK),
    )


def _drawn(
    voice: Voice,
    days: Sequence[Day],
    span: tuple[int, int],
    found: Sequence[FoundMark],
    name: str,
    width: int,
) -> str:
    return day_figure(
        days, say=voice.say, start=span[0], end=span[1], findings=found, name=name, width=width
    )


def _compared(voice: Voice, standing: Standing, best: LookedBack) -> Compared:
    return Compared(
        ends=tuple(_ends(voice, standing, best)),
        spent=tuple(_spent(voice, standing, best)),
        dearest=tuple(_dearest(voice, standing, best)),
    )


def _ends(voice: Voice, standing: Standing, best: LookedBack) -> list[str]:
    """When the day was over, when it could have been, and before what no plan ends."""
    say, own = voice.say, standing.state.ended or standing.state.now
    said = [say("Off the roof at %(end)s.") % {"end": voice.clock(own)}]
    known = (best.forecast, best.hindsight)
    if best.forecast.end == best.hindsight.end:
        told = (
            "The best day found ends at %(end)s, with this morning’s forecast and with hindsight."
        )
        said += _best_end(voice, say(told), best.forecast)
    else:
        told = say("With this morning’s forecast alone the best day found ends at %(end)s.")
        said += _best_end(voice, told, best.forecast)
        told = say("With hindsight, the weather known, it ends at %(end)s.")
        said += _best_end(voice, told, best.hindsight)
    if not any(day.clean for day in known):
        said.append(say("No way to work was found that keeps every rule and finishes this job."))
    elif best.hindsight.exact:
        said.append(say("Nothing can be faster."))
    else:
        bound = {"bound": voice.clock(best.hindsight.bound)}
        said.append(say("No plan that keeps the rules could end before %(bound)s.") % bound)
    return said + _sooner(voice, standing, own, best)


def _best_end(voice: Voice, told: str, day: BestDay) -> list[str]:
    return [told % {"end": voice.clock(day.end)}] if day.clean else []


def _sooner(voice: Voice, standing: Standing, own: int, best: LookedBack) -> list[str]:
    """What an end before the best one is worth."""
    if own >= best.forecast.end or not best.forecast.clean:
        return []
    broken, left = bool(standing.state.findings), bool(missing(standing.job, standing.state))
    if broken and left:
        why = voice.say("It was sooner over because rules were broken and work was left undone")
    elif broken:
        why = voice.say("It was sooner over because rules were broken")
    elif left:
        why = voice.say("It was sooner over because work was left undone")
    else:
        return [voice.say("By the rules, and sooner than the best day the program found.")]
    return [voice.say("%(why)s: that counts for nothing.") % {"why": why}]


def _spent(voice: Voice, standing: Standing, best: LookedBack) -> list[str]:
    say, lost = voice.say, wasted(standing.job, standing.state)
    strips = {"own": standing.state.strips_cut, "best": best.forecast.strips}
    said = [say("Strips cut: %(own)d; on the best day %(best)d.") % strips]
    if lost.redone_mm:
        redone = {"far": voice.along(lost.redone_mm)}
        said.append(say("Taken off and laid again: %(far)s of wall.") % redone)
    else:
        said.append(say("Nothing was taken off and laid again."))
    return [*said, _primer(voice, lost)]


def _primer(voice: Voice, lost: Wasted) -> str:
    if not lost.primer_mm:
        return voice.say("No primer was wasted.")
    amounts = {"far": voice.along(lost.primer_mm), "volume": volume(voice, lost.primer_l)}
    return voice.say("Primer that no sheet went on: %(far)s of wall, %(volume)s.") % amounts


def volume(voice: Voice, litres: float) -> str:
    """ "0.4 litres", or US gallons for who reads inches; what rounds to nothing is "less than"."""
    if voice.units.length == "in":
        amount, unit = litres / _L_PER_US_GAL, voice.say("US gal")
    else:
        amount, unit = litres, voice.say("litres")
    if amount < 0.05:
        return voice.say("less than %(amount)s") % {"amount": f"0.1 {unit}"}
    return f"{say_number(round(amount, 1))} {unit}"


def _dearest(voice: Voice, standing: Standing, best: LookedBack) -> list[str]:
    cost = best.dearest
    if cost is None or cost.number > len(standing.decisions):
        return []
    decision = standing.decisions[cost.number - 1]
    told = {
        "at": voice.clock(best.dearest_at),
        "told": decided(voice, standing.job, standing.state, decision),
        "later": voice.lasting(cost.minutes),
    }
    said = voice.say("At %(at)s: %(told)s") % told
    if cost.number == len(standing.decisions) and missing(standing.job, standing.state):
        return [said, voice.say("With it the day ended, and the job was not finished.")]
    return [said, voice.say("After it the best possible end was %(later)s later.") % told]
