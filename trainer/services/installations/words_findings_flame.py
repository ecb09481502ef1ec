"""Findings about the flame, the watch and the edge, in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from trainer.services.installations import words

if TYPE_CHECKING:
    from trainer.services.installations.words_findings import Telling

Facts = dict[str, Any]


def _tool(telling: Telling, place: str) -> str:
    return words.tool_name(telling.voice, place.partition(" ")[0])


def _unclosed(telling: Telling, place: str, facts: Facts) -> str:
    sums = telling.length("flame-to-unclosed", facts["distance_mm"], facts["required_mm"])
    names = {"tool": _tool(telling, place), "open": telling.place(facts["open"])}
    return telling.say(
        "%(tool)s burns %(actual)s from %(open)s, which is not closed;"
        " the rule asks %(limit)s: %(gap)s too near."
    ) % {**sums, **names}


def _what(telling: Telling, facts: Facts) -> str:
    return words.the_thing(telling.voice, facts["what"])


def _burns_behind(telling: Telling, place: str, facts: Facts) -> str:
    names = {
        "tool": _tool(telling, place),
        "what": _what(telling, facts),
        "actual": telling.voice.reach(facts["distance_mm"]),
    }
    return (
        telling.say(
            "%(tool)s burns %(actual)s from %(what)s, which catches fire and is not covered."
        )
        % names
    )


def _burns_near(telling: Telling, place: str, facts: Facts) -> str:
    if "distance_mm" not in facts:
        return telling.say("Release film lies about while the torch is lit.")
    subject = "combustibles-distance"
    sums = telling.length(subject, facts["distance_mm"], facts["required_mm"])
    names = {"tool": _tool(telling, place), "what": _what(telling, facts)}
    return telling.say(
        "%(tool)s burns %(actual)s from %(what)s, neither carried away nor covered;"
        " the rule asks %(limit)s: %(gap)s too near."
    ) % {**sums, **names}


def _opening(telling: Telling, place: str, facts: Facts) -> str:
    names = {
        "tool": _tool(telling, place),
        "what": _what(telling, facts),
        "actual": telling.voice.reach(facts["distance_mm"]),
    }
    return telling.say("%(what)s is not covered, %(actual)s from %(tool)s: sparks get in.") % names


def _wet_primer(telling: Telling, place: str, facts: Facts) -> str:
    subject = "wet-primer-to-flame"
    sums = telling.length(subject, facts["distance_mm"], facts["required_mm"])
    names = {"tool": _tool(telling, place), **sums}
    if "wall" not in facts:
        return (
            telling.say(
                "an open can of primer stands %(actual)s from %(tool)s;"
                " the rule asks %(limit)s: %(gap)s too near."
            )
            % names
        )
    names["wall"] = words.wall_name(telling.voice, facts["wall"])
    return (
        telling.say(
            "primer on %(wall)s that is not dry lies %(actual)s from %(tool)s;"
            " the rule asks %(limit)s: %(gap)s too near."
        )
        % names
    )


def _permit(telling: Telling, place: str, facts: Facts) -> str:
    return telling.say("%(tool)s burns and no permit is open.") % {"tool": _tool(telling, place)}


def _extinguisher(telling: Telling, place: str, facts: Facts) -> str:
    tool = {"tool": _tool(telling, place)}
    if facts.get("distance_mm") is None:
        return telling.say("%(tool)s burns and no extinguisher is on the roof.") % tool
    sums = telling.length("extinguisher-distance", facts["distance_mm"], facts["most_mm"])
    return telling.say(
        "the nearest extinguisher stands %(actual)s from %(tool)s;"
        " the rule allows %(limit)s: %(gap)s too far."
    ) % {**sums, **tool}


def _cylinder(telling: Telling, place: str, facts: Facts) -> str:
    sums = telling.length("cylinder-to-burner", facts["distance_mm"], facts["required_mm"])
    return telling.say(
        "the gas cylinder stands %(actual)s from %(tool)s;"
        " the rule asks %(limit)s: %(gap)s too near."
    ) % {**sums, "tool": _tool(telling, place)}


def _untrained(telling: Telling, place: str, facts: Facts) -> str:
    name = words.hand_name(telling.job, place.partition(" ")[2])
    return telling.say("%(name)s holds the lit torch and is not trained for it.") % {"name": name}


def _left_lit(telling: Telling, place: str, facts: Facts) -> str:
    if facts.get("doing") == "leave":
        return telling.say("Everybody left the roof while a flame was lit.")
    if facts.get("doing") == "watch":
        return telling.say("Whoever holds the lit torch stands on watch as well.")
    return telling.say("The torch is lit while whoever holds it does something else.")


def _preheat(telling: Telling, place: str, facts: Facts) -> str:
    subject = "film-preheat-distance"
    sums = telling.length(subject, facts["distance_mm"], facts["required_mm"])
    return (
        telling.say(
            "film is melted %(actual)s from the wall; the rule asks %(limit)s: %(gap)s too near."
        )
        % sums
    )


def _duties(telling: Telling, place: str, facts: Facts) -> str:
    if "smoke_at" in facts:
        times = {
            "at": telling.voice.clock(facts["smoke_at"]),
            "within": telling.voice.lasting(facts["within_min"]),
        }
        return (
            telling.say("It smelt of smoke at %(at)s and nobody looked within %(within)s.") % times
        )
    name = words.hand_name(telling.job, place.partition(" ")[2])
    return telling.say("%(name)s stands on watch and is not trained for it.") % {"name": name}


def _watchers(telling: Telling, place: str, facts: Facts) -> str:
    numbers = {"watching": facts["watching"], "required": f"{facts['required']:g}"}
    if not facts["watching"]:
        return (
            telling.say(
                "A flame burns and nobody trained is on watch; the rule asks for %(required)s."
            )
            % numbers
        )
    return (
        telling.say(
            "A flame burns and %(watching)d trained on watch; the rule asks for %(required)s."
        )
        % numbers
    )


def _fire_watch(telling: Telling, place: str, facts: Facts) -> str:
    voice = telling.voice
    limit, minutes = telling.limit("fire-watch", facts["watch_min"], voice.lasting)
    times = {
        "last": voice.clock(facts["last_flame"]),
        "limit": limit,
        "end": voice.clock(int(facts["last_flame"] + minutes)),
    }
    if place == "permit":
        return (
            telling.say(
                "The permit was closed before the watch was over: last flame %(last)s,"
                " the rule asks %(limit)s, so until %(end)s."
            )
            % times
        )
    return (
        telling.say(
            "Nobody trained is on watch: last flame %(last)s, the rule asks %(limit)s,"
            " so until %(end)s."
        )
        % times
    )


def _edge(telling: Telling, place: str, facts: Facts) -> str:
    hand, _, wall = place.partition(" at wall ")
    sums = telling.length("guardrail-height", facts["height_mm"], facts["required_mm"])
    names = {
        "name": words.hand_name(telling.job, hand),
        "wall": words.wall_name(telling.voice, wall),
    }
    return telling.say(
        "%(name)s works at %(wall)s without edge protection: the parapet is %(actual)s high,"
        " the rule asks %(limit)s: %(gap)s short."
    ) % {**sums, **names}


def _last_look(telling: Telling, place: str, facts: Facts) -> str:
    return telling.say("Nobody walked round for a last look after the last flame.")


WORDERS: Mapping[str, Callable[[Telling, str, Facts], str]] = {
    "flame-to-unclosed": _unclosed,
    "torch-to-combustible": _burns_behind,
    "combustibles-distance": _burns_near,
    "openings-covered": _opening,
    "wet-primer-to-flame": _wet_primer,
    "permit-content": _permit,
    "extinguisher-distance": _extinguisher,
    "cylinder-to-burner": _cylinder,
    "extinguisher-training": _untrained,
    "lit-torch-left": _left_lit,
    "film-preheat-distance": _preheat,
    "watch-duties": _duties,
    "watchers-per-torch": _watchers,
    "fire-watch": _fire_watch,
    "guardrail-height": _edge,
    "last-inspection": _last_look,
}
