"""An installation as its page shows it: what is known now, what just happened, what can be done.

Nothing is planned or replayed for it. Whatever a page says comes from what anybody sees on the roof
and from ``state.known``; findings come with it while practising alone.
"""

from __future__ import annotations

from collections.abc import Sequence

from trainer.installation.job import Job
from trainer.installation.laps import missing
from trainer.installation.limits import value
from trainer.installation.run import LONGEST_QUIET_MIN
from trainer.installation.state import State
from trainer.services.installations import places, words_known, words_log
from trainer.services.installations.cautions import caution_at
from trainer.services.installations.figures import plan_figure, wall_figure
from trainer.services.installations.options import at_place
from trainer.services.installations.options_bench import Bench
from trainer.services.installations.options_next import next_things
from trainer.services.installations.page_data import (
    Findings,
    Group,
    Here,
    InstallationPage,
    LeavingPage,
)
from trainer.services.installations.places import Place
from trainer.services.installations.store import Standing
from trainer.services.installations.words import Voice, voice_of
from trainer.services.installations.words_decisions import decided
from trainer.services.installations.words_findings import Telling, by_rule, line
from trainer.services.pages import Row
from trainer.services.person import SignedIn

__all__ = ["InstallationPage", "installation_page", "leaving_page"]

_LATELY = 3
_MOST_NEWS = 8
_WAITS_MIN = (5, 10, 30)
_PLAN = "plan"


def installation_page(
    person: SignedIn, standing: Standing, *, place: str = "", view: str = "", since: str = ""
) -> InstallationPage:
    """An installation as it stands, for whose it is.

    ``place`` is the chosen place or part of the drawing, ``view`` the drawing asked for, ``since``
    what an earlier page had ``seen``.
    """
    return _Showing(voice_of(person), standing).page(place, view, since)


class _Showing:
    """One installation, told to one person."""

    def __init__(self, voice: Voice, standing: Standing) -> None:
        self.voice, self.standing = voice, standing
        self.job: Job = standing.job
        self.state: State = standing.state
        self.say = voice.say

    def page(self, asked: str, view: str, since: str) -> InstallationPage:
        voice, job, state = self.voice, self.job, self.state
        every = places.places(voice, job, state)
        chosen = next((p for p in every if p.id == places.place_of_part(asked)), None)
        view = self._view(view, chosen)
        log_seen, findings_seen = _seen(since, state)
        news = words_log.news(voice, job, state, state.log[log_seen:])
        return InstallationPage(
            id=self.standing.row.public_id,
            title=job.title,
            purpose=self.standing.purpose,
            number=self.standing.number,
            clock=voice.clock(state.now),
            leave_by=voice.clock(job.leave_by),
            forecast=" ".join(words_log.outlook(voice, job.weather.forecast)),
            weather=words_log.weather_now(voice, job, state.now),
            brief=job.brief,
            news=tuple(Row(*item) for item in news[-_MOST_NEWS if since else -_LATELY :]),
            fresh=bool(since),
            people=self._people(),
            views=self._views(),
            view=view,
            figure=self._figure(view, asked, chosen, every),
            groups=_grouped(every),
            here=self._here(chosen) if chosen else None,
            lost=bool(asked) and chosen is None,
            busy=self._busy(),
            waits=self._waits(),
            next=next_things(Bench(voice, job, state), self.standing.decisions),
            findings=self._findings(findings_seen),
            can_step_back=self.standing.purpose == "practise" and self.standing.number > 0,
            last=self._last(),
            seen=f"{len(state.log)}-{len(state.findings)}",
        )

    def _view(self, view: str, chosen: Place | None) -> str:
        """The drawing asked for; else that of the chosen place, else the first wall."""
        walls = [wall.id for wall in self.job.walls]
        if view in (_PLAN, *walls):
            return view
        return chosen.wall if chosen and chosen.wall else walls[0]

    def _views(self) -> tuple[Row, ...]:
        walls = [Row(w.id, self.say("Wall %(id)s") % {"id": w.id}) for w in self.job.walls]
        return (*walls, Row(_PLAN, self.say("Roof plan")))

    def _figure(self, view: str, asked: str, here: Place | None, every: Sequence[Place]) -> str:
        ring = (
            asked if here is None or asked != here.id else places.part_of_place(self.job, here.id)
        )
        told = {"say": self.say, "length": self.voice.along, "chosen": ring}
        names = {place.id: place.name for place in every}
        if view == _PLAN:
            return plan_figure(self.job, self.state, names=names, **told)
        return wall_figure(self.job, self.state, view, names=names, **told)

    def _people(self) -> tuple[Row, ...]:
        voice, job, state = self.voice, self.job, self.state
        return tuple(
            Row(
                "" if person.watching else words_log.trained(voice, job, person.id),
                words_log.person_line(voice, job, state, person),
            )
            for person in (state.people[hand.id] for hand in job.crew)
        )

    def _here(self, place: Place) -> Here:
        options = at_place(self.voice, self.job, self.state, place.id)
        caution = caution_at(self.voice, self.job, self.state, place.id)
        return Here(place.id, place.name, caution, tuple(self._facts(place.id)), tuple(options))

    def _facts(self, place: str) -> list[str]:
        voice, job, state = self.voice, self.job, self.state
        if place.startswith("wall-"):
            return words_known.wall_facts(voice, job, state, place.removeprefix("wall-"))
        if sheet := places.numbered(place, "sheet"):
            return words_known.sheet_facts(voice, job, state, f"{sheet[0]}:{sheet[1]}")
        if place.startswith("corner-"):
            return words_known.corner_facts(voice, job, state, int(place[len("corner-") :]))
        if place == "crew":
            trained = [(hand.name, words_log.trained(voice, job, hand.id)) for hand in job.crew]
            told = self.say("%(name)s is trained for: %(what)s.")
            return [told % {"name": name, "what": what} for name, what in trained if what]
        if place == "weather":
            return words_log.forecast_lines(voice, job.weather.forecast)
        if place == "rolls":
            return words_known.rolls_facts(voice, job, state)
        return words_known.flame_facts(voice, job, state) if place in ("torch", "melter") else []

    def _busy(self) -> bool:
        return any(not person.free for person in self.state.people.values())

    def _waits(self) -> tuple[Row, ...]:
        say, lasting = self.say, self.voice.lasting
        longest = {"time": lasting(LONGEST_QUIET_MIN)}
        first = (
            say("Wait until somebody is done")
            if self._busy()
            else say("Wait until something happens, %(time)s at most") % longest
        )
        for_so_long = say("Wait %(time)s")
        waits = [Row("0", first)]
        left = self._watch_left()
        if left > 0:
            over = {"time": self.voice.clock(self.state.now + left)}
            waits.append(Row(str(left), say("Wait until the watch is over, %(time)s") % over))
        for_so_long = say("Wait %(time)s")
        return (*waits, *(Row(str(n), for_so_long % {"time": lasting(n)}) for n in _WAITS_MIN))

    def _watch_left(self) -> int:
        """Minutes of the watch after the last flame that are still to come."""
        state = self.state
        if state.last_flame is None or state.flames:
            return 0
        return int(state.last_flame + value(self.standing.limits, "fire-watch")) - state.now

    def _findings(self, seen: int) -> Findings:
        """Nothing at all while proving."""
        if self.standing.purpose != "practise":
            return Findings()
        standing, every = self.standing, self.state.findings
        telling = Telling(self.voice, self.job, self.state, standing.shelf.rules)
        told = [line(telling, finding, standing.decisions) for finding in every]
        return Findings(
            new=by_rule(told[seen:]),
            standing=by_rule([found for found in told[:seen] if not found.over]),
            over=by_rule([found for found in told[:seen] if found.over]),
        )

    def _last(self) -> str:
        decisions = self.standing.decisions
        if not decisions:
            return ""
        return decided(self.voice, self.job, self.state, decisions[-1])


def _seen(since: str, state: State) -> tuple[int, int]:
    """How many entries of log and findings an earlier page had; else the last few are new."""
    log, _, findings = since.partition("-")
    if log.isdecimal() and findings.isdecimal() and len(since) < 16:
        return int(log), int(findings)
    return max(0, len(state.log) - _LATELY), len(state.findings)


def _grouped(every: Sequence[Place]) -> tuple[Group, ...]:
    names = dict.fromkeys(place.group for place in every)
    return tuple(Group(name, tuple(p for p in every if p.group == name)) for name in names)


def leaving_page(person: SignedIn, standing: Standing) -> LeavingPage:
    """Asks once more before everybody leaves the roof."""
    voice, job, state = voice_of(person), standing.job, standing.state
    return LeavingPage(
        id=standing.row.public_id,
        title=job.title,
        clock=voice.clock(state.now),
        number=standing.number,
        unfinished=tuple(words_log.unfinished(voice, job, state, missing(job, state))),
        seen=f"{len(state.log)}-{len(state.findings)}",
    )
