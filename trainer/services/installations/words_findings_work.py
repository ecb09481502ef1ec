"""Findings about primer, sheets, laps and corners, in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from trainer.services.installations import words

if TYPE_CHECKING:
    from trainer.services.installations.words_findings import Telling

Facts = dict[str, Any]


def _primed(telling: Telling, facts: Facts) -> str:
    """The wall that was primed; its coat may lie in pieces by now, or under sheets."""
    return words.wall_name(telling.voice, facts["wall"]) if "wall" in facts else ""


def _wet(telling: Telling, place: str, facts: Facts) -> str:
    names = {"place": telling.place(place)}
    if "damp_mm" not in facts:
        return telling.say("%(place)s went onto primer that it had rained on.") % names
    names = {"place": _primed(telling, facts), "damp": telling.voice.reach(facts["damp_mm"])}
    return telling.say("%(place)s was primed while %(damp)s of it was damp.") % names


def _dew_point(telling: Telling, place: str, facts: Facts) -> str:
    say = telling.voice.units.say_difference
    sums = telling.short("surface-above-dew-point", facts["spread_k"], facts["required_k"], say)
    return telling.say(
        "%(place)s: the face was %(actual)s above the dew point; the rule asks %(limit)s:"
        " %(gap)s short."
    ) % {**sums, "place": _primed(telling, facts) or telling.place(place)}


def _humid(telling: Telling, place: str, facts: Facts) -> str:
    sums = telling.short("relative-humidity", facts["rh_pct"], facts["most_pct"], _percent)
    return telling.say(
        "%(place)s was primed at %(actual)s humidity; the rule allows %(limit)s: %(gap)s too much."
    ) % {**sums, "place": _primed(telling, facts)}


def _percent(value: float) -> str:
    return f"{value:g} %"


def _in_rain(telling: Telling, place: str, facts: Facts) -> str:
    if "wall" in facts:
        return telling.say("%(place)s was primed in the rain.") % {"place": _primed(telling, facts)}
    return telling.say("%(place)s was laid in the rain.") % {"place": telling.place(place)}


def _onto_field(telling: Telling, place: str, facts: Facts) -> str:
    sums = telling.length("lap-onto-field", facts["lap_mm"], facts["required_mm"])
    return telling.say(
        "%(place)s laps %(actual)s onto the field; the rule asks %(limit)s: %(gap)s short."
    ) % {**sums, "place": telling.place(place)}


def _defect(telling: Telling, place: str, facts: Facts) -> str:
    names = {"place": telling.place(place)}
    if facts.get("film"):
        return (
            telling.say("%(place)s was rolled with the weldable film still on: it is not bonded.")
            % names
        )
    return telling.say("%(place)s lies wrinkled.") % names


def _bare(telling: Telling, place: str, facts: Facts) -> str:
    names = {"place": telling.place(place), "bare": telling.voice.reach(facts["bare_mm"])}
    return telling.say("%(place)s went over %(bare)s of wall that nobody primed.") % names


def _undried(telling: Telling, place: str, facts: Facts) -> str:
    names = {
        "place": telling.place(place),
        "missing": telling.voice.lasting(facts["missing_min"]),
    }
    return (
        telling.say("%(place)s went onto primer that was not dry: it lacked %(missing)s of drying.")
        % names
    )


def _too_old(telling: Telling, place: str, facts: Facts) -> str:
    subject = "primer-never-after"
    say = telling.voice.lasting
    sums = telling.short(subject, facts["age_min"], facts["latest_min"], say)
    return telling.say(
        "under %(place)s the oldest primer was %(actual)s old; the data sheet allows %(limit)s:"
        " %(gap)s too old."
    ) % {**sums, "place": telling.place(place)}


def _spoilt(telling: Telling, place: str, facts: Facts) -> str:
    names = {"place": telling.place(place), "spoilt": telling.say(facts["spoilt"])}
    return telling.say("%(place)s went onto primer with %(spoilt)s on it.") % names


def _too_cold(telling: Telling, place: str, facts: Facts) -> str:
    units = telling.voice.units
    limit, least = telling.limit(
        "adhesive-lap-temperature", facts["least_c"], units.say_temperature
    )
    names = {
        "place": telling.place(place),
        "actual": units.say_temperature(facts["surface_c"]),
        "limit": limit,
        "gap": units.say_difference(least - facts["surface_c"]),
    }
    return (
        telling.say(
            "the face was %(actual)s when %(place)s went on; the rule asks %(limit)s:"
            " %(gap)s too cold."
        )
        % names
    )


def _cold_roll(telling: Telling, place: str, facts: Facts) -> str:
    say = telling.voice.units.say_temperature
    names = {
        "place": telling.place(place),
        "actual": say(facts["air_c"]),
        "limit": telling.limit("cold-storage-from", facts["from_c"], say)[0],
    }
    return (
        telling.say(
            "%(place)s came off a cold roll at %(actual)s; below %(limit)s only rolls that were"
            " kept warm are laid."
        )
        % names
    )


def _not_relaxed(telling: Telling, place: str, facts: Facts) -> str:
    say = telling.voice.lasting
    sums = telling.short("relaxing-time", facts["relaxed_min"], facts["required_min"], say)
    return telling.say(
        "the strip of %(place)s had lain %(actual)s; the rule asks %(limit)s: %(gap)s short."
    ) % {**sums, "place": telling.place(place)}


def _since_rain(telling: Telling, place: str, facts: Facts) -> str:
    say = telling.voice.lasting
    sums = telling.short("dry-since-rain", facts["since_min"], facts["required_min"], say)
    return telling.say(
        "%(place)s was laid %(actual)s after the rain; the rule asks %(limit)s: %(gap)s too soon."
    ) % {**sums, "place": telling.place(place)}


def _side_lap(telling: Telling, place: str, facts: Facts) -> str:
    names = {"place": telling.place(place)}
    if facts["lap_mm"] <= 0:
        names["gap"] = telling.voice.reach(-facts["lap_mm"])
        return telling.say("%(place)s: the sheets do not reach each other by %(gap)s.") % names
    sums = telling.length("side-lap", facts["lap_mm"], facts["required_mm"])
    return telling.say("%(place)s is %(actual)s wide; the rule asks %(limit)s: %(gap)s short.") % {
        **sums,
        **names,
    }


def _clearance(telling: Telling, place: str, facts: Facts) -> str:
    names = {"place": telling.place(place), "field": telling.voice.stretch(*facts["field_lap"])}
    if facts["clear_mm"] <= 0:
        return telling.say("%(place)s lies over a lap of the field, %(field)s.") % names
    sums = telling.length("lap-clearance", facts["clear_mm"], facts["required_mm"])
    return telling.say(
        "%(place)s lies %(actual)s from a lap of the field, %(field)s;"
        " the rule asks %(limit)s: %(gap)s short."
    ) % {**sums, **names}


def _not_cut(telling: Telling, place: str, facts: Facts) -> str:
    return telling.say("the second sheet of %(place)s went on before the first was cut at 45°.") % {
        "place": telling.place(place)
    }


def _gusset(telling: Telling, place: str, facts: Facts) -> str:
    sums = telling.length("gusset-cover", facts["reach_mm"], facts["required_mm"])
    return telling.say(
        "the gusset of %(place)s reaches %(actual)s past it; the rule asks %(limit)s:"
        " %(gap)s short."
    ) % {**sums, "place": telling.place(place)}


def _left_open(telling: Telling, place: str, facts: Facts) -> str:
    return telling.say("%(place)s: water gets behind its sheets, its edges are open.") % {
        "place": words.capital(telling.place(place))
    }


WORDERS: Mapping[str, Callable[[Telling, str, Facts], str]] = {
    "wet-surface": _wet,
    "surface-above-dew-point": _dew_point,
    "relative-humidity": _humid,
    "wet-weather": _in_rain,
    "lap-onto-field": _onto_field,
    "defects-rejected": _defect,
    "primed-surfaces": _bare,
    "primer-touch-dry": _undried,
    "primer-never-after": _too_old,
    "primer-ahead": _spoilt,
    "adhesive-lap-temperature": _too_cold,
    "cold-storage": _cold_roll,
    "relaxing-time": _not_relaxed,
    "dry-since-rain": _since_rain,
    "side-lap": _side_lap,
    "lap-clearance": _clearance,
    "t-joint-cut": _not_cut,
    "gusset-cover": _gusset,
    "end-of-day-seal": _left_open,
}
