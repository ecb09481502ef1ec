"""What happened, and what the day is like, in short sentences."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from trainer.installation.day import Forecast, Hour
from trainer.installation.job import Job
from trainer.installation.state import Person, State
from trainer.services.installations import words
from trainer.services.installations.words import Voice, capital
from trainer.services.installations.words_decisions import doing, done
from trainer.services.installations.words_found import found_by

_Entry = Mapping[str, Any]


def news(voice: Voice, job: Job, state: State, entries: Sequence[_Entry]) -> list[tuple[str, str]]:
    """Log entries as (clock, sentence), in order; what is said twice is said once."""
    told: list[tuple[str, str]] = []
    for entry in entries:
        text = happened(voice, job, state, entry)
        if text and (voice.clock(entry["at"]), text) not in told:
            told.append((voice.clock(entry["at"]), text))
    return told


def happened(voice: Voice, job: Job, state: State, entry: _Entry) -> str:
    """One entry of the log as a sentence; empty for what another entry says already."""
    kind = entry["kind"]
    if kind == "done":
        found = found_by(voice, job, state, entry)
        told = done(voice, job, state, entry)
        return f"{told.removesuffix('.')}: {found}." if found else told
    worder = _HAPPENED.get(kind)
    return worder(voice, job, state, entry) if worder else ""


def _broke_off(voice: Voice, job: Job, state: State, entry: _Entry) -> str:
    names = {"who": words.hand_name(job, entry["who"]), "why": _reason(voice, entry["why"])}
    return (voice.say("%(who)s broke off. %(why)s") % names).rstrip()


def _reason(voice: Voice, text: str) -> str:
    return voice.in_own_units(voice.say(text)) if text else ""


def _gas_out(voice: Voice, job: Job, state: State, entry: _Entry) -> str:
    return voice.say("The gas ran out in the hand of %(who)s.") % {
        "who": words.hand_name(job, entry["who"])
    }


def _gust(voice: Voice, job: Job, state: State, entry: _Entry) -> str:
    sheet = words.sheet_name(voice, job, entry["sheet"])
    return voice.say("A gust caught %(sheet)s while one person laid it.") % {"sheet": sheet}


def _smoke(voice: Voice, job: Job, state: State, entry: _Entry) -> str:
    return voice.say("It smells of smoke at %(wall)s.") % {
        "wall": words.wall_name(voice, entry["wall"])
    }


def _smoke_looked_at(voice: Voice, job: Job, state: State, entry: _Entry) -> str:
    return voice.say("Somebody looked where the smoke at %(wall)s came from.") % {
        "wall": words.wall_name(voice, entry["wall"])
    }


def _dragged_out(voice: Voice, job: Job, state: State, entry: _Entry) -> str:
    corner = words.corner_name(voice, job, entry["corner"])
    return voice.say("The roller dragged the hot bitumen out of %(corner)s.") % {"corner": corner}


def _off_the_roof(voice: Voice, job: Job, state: State, entry: _Entry) -> str:
    if entry.get("how") == "leaving time":
        return voice.say("It was time to leave: everybody is off the roof.")
    return voice.say("Everybody is off the roof.")


def _plain(text: str) -> Callable[[Voice, Job, State, _Entry], str]:
    def say_it(voice: Voice, job: Job, state: State, entry: _Entry) -> str:
        return voice.say(text)

    return say_it


_HAPPENED: dict[str, Callable[[Voice, Job, State, _Entry], str]] = {
    "broke off": _broke_off,
    "gas out": _gas_out,
    "gust": _gust,
    "smoke": _smoke,
    "smoke looked at": _smoke_looked_at,
    "bitumen dragged out": _dragged_out,
    "off the roof": _off_the_roof,
    "alarm": _plain("The alarm was raised: every flame is out, everybody dropped their work."),
    "stopped": _plain("All work was stopped."),
    "rain": _plain("It began to rain."),
    "rain over": _plain("The rain stopped."),
    "gusts": _plain("The wind came in gusts."),
    "gusts over": _plain("The gusts are over."),
}


def person_line(voice: Voice, job: Job, state: State, person: Person) -> str:
    """ "Dana is free", "Ivo is on watch", "Noor rolls sheet 3 of wall A until 09:51"."""
    name = {"name": words.hand_name(job, person.id)}
    if person.doing is None:
        if person.watching:
            return voice.say("%(name)s is on watch") % name
        return voice.say("%(name)s is free") % name
    until = {"until": voice.clock(person.until)} if person.until is not None else {}
    if person.doing.get("with") == person.id:
        first = {"first": words.hand_name(job, person.doing["who"])}
        return voice.say("%(name)s helps %(first)s until %(until)s") % {**name, **first, **until}
    text = doing(voice, job, state, person.doing)
    if until:
        text = voice.say("%(doing)s, until %(until)s") % {"doing": text, **until}
    more = len(person.queue)
    if more:
        text += voice.count(", then %(n)d more step", ", then %(n)d more steps", more)
    return text


def trained(voice: Voice, job: Job, hand_id: str) -> str:
    """What somebody is trained for, in a word or two."""
    hand = job.hand(hand_id)
    if hand.torch and hand.watch:
        return voice.say("torch and watch")
    if hand.torch:
        return voice.say("torch")
    return voice.say("watch") if hand.watch else ""


def rain_forecast(voice: Voice, forecast: Forecast) -> str:
    """This morning's forecast of rain in a sentence."""
    if forecast.rain_from is None or forecast.rain_to is None or not forecast.rain_pct:
        return voice.say("No rain in the forecast.")
    names = {
        "from": voice.clock(forecast.rain_from),
        "to": voice.clock(forecast.rain_to),
        "chance": f"{forecast.rain_pct} %",
    }
    if forecast.rain_pct >= _LIKELY_PCT:
        return voice.say("Shower likely between %(from)s and %(to)s (%(chance)s).") % names
    return voice.say("A shower may come between %(from)s and %(to)s (%(chance)s).") % names


_LIKELY_PCT = 60


def outlook(voice: Voice, forecast: Forecast) -> list[str]:
    """Rain and gusts of this morning's forecast, a sentence each."""
    lines = [rain_forecast(voice, forecast)]
    for start, end in forecast.gusts:
        times = {"from": voice.clock(start), "to": voice.clock(end)}
        lines.append(voice.say("Gusts from %(from)s to %(to)s.") % times)
    return lines


def forecast_lines(voice: Voice, forecast: Forecast) -> list[str]:
    """Everything that was said this morning, a sentence each."""
    return outlook(voice, forecast) + [_hour(voice, hour) for hour in forecast.air]


def _hour(voice: Voice, hour: Hour) -> str:
    names = {
        "at": voice.clock(hour.at),
        "air": voice.units.say_temperature(hour.air_c),
        "humid": f"{hour.rh_pct} %",
    }
    return voice.say("From %(at)s: %(air)s, humidity %(humid)s.") % names


def weather_now(voice: Voice, job: Job, now: int) -> str:
    """What anybody on the roof sees and feels; empty while there is nothing to say."""
    said = []
    if job.weather.raining(now):
        said.append(voice.say("It rains."))
    if any(start <= now < end for start, end in job.weather.gusts):
        said.append(voice.say("The wind comes in gusts."))
    return " ".join(said)


def unfinished(voice: Voice, job: Job, state: State, missing: Sequence[str]) -> list[str]:
    """What is not finished yet, from the ids of ``laps.missing``."""
    return [capital(_unfinished(voice, job, state, part)) for part in missing]


def _unfinished(voice: Voice, job: Job, state: State, part: str) -> str:
    kind, _, rest = part.partition(" ")
    if kind == "wall":
        return voice.say("%(wall)s is not set out") % {"wall": words.wall_name(voice, rest)}
    if kind == "sheet":
        return voice.say("%(sheet)s is not laid") % {"sheet": words.sheet_name(voice, job, rest)}
    if kind == "roll":
        return voice.say("%(sheet)s is not rolled") % {"sheet": words.sheet_name(voice, job, rest)}
    if kind == "lap":
        return voice.say("%(lap)s is not welded") % {"lap": words.lap_name(voice, state, rest)}
    if part.startswith("corner-"):
        corner = words.corner_name(voice, job, int(part.removeprefix("corner-")))
        return voice.say("%(corner)s has no gusset") % {"corner": corner}
    if part == "flame":
        return voice.say("a flame is lit")
    return voice.say("the permit is open") if part == "permit" else part
