"""What anybody knows of a place: what lies in plain sight, and what was found out and when.

Nothing here reads the true state of what is hidden: ``state.known`` and what one sees alone.
"""

from __future__ import annotations

from copy import copy

from trainer.installation.job import Job
from trainer.installation.state import Coat, State
from trainer.services.installations import words, words_found
from trainer.services.installations.words import Voice, capital


def wall_facts(voice: Voice, job: Job, state: State, wall_id: str) -> list[str]:
    """A wall: its measures, its marks, its primer, and what was found out about it."""
    wall = job.wall(wall_id)
    said = voice.say("%(length)s long, %(height)s high, %(top)s on top") % {
        "length": voice.along(wall.length_mm),
        "height": voice.length(wall.height_mm),
        "top": voice.length(wall.top_mm),
    }
    if wall.cant_mm:
        said += voice.say(", a cant of %(cant)s") % {"cant": voice.length(wall.cant_mm)}
    lines = [said + "."]
    if wall.field_laps:
        bands = voice.listed([voice.stretch(*band) for band in wall.field_laps])
        lines.append(voice.say("Laps of the field run up to it at %(bands)s.") % {"bands": bands})
    lines += [_edge(voice, job, state, wall_id), *_marks(voice, job, state, wall_id)]
    lines += [coat_line(voice, coat) for coat in whole_coats(state, wall_id)]
    return lines + _found_out(voice, job, state, wall_id)


def _edge(voice: Voice, job: Job, state: State, wall_id: str) -> str:
    wall = job.wall(wall_id)
    if wall.rail or wall_id in state.rails:
        return voice.say("Edge protection stands.")
    drop = {"drop": voice.along(wall.drop_mm)}
    return voice.say("No edge protection; %(drop)s down outside.") % drop


def _marks(voice: Voice, job: Job, state: State, wall_id: str) -> list[str]:
    lines = []
    line = state.lines.get(wall_id)
    if line:
        far = {"far": voice.length(line["distance_mm"])}
        lines.append(voice.say("A line is snapped %(far)s from the wall's face.") % far)
    layout = state.layouts.get(wall_id)
    if layout:
        starts = voice.listed([voice.along(at) for at in layout["laps"]]) or "–"
        marks = {"at": starts, "width": voice.length(layout["lap_mm"])}
        lines.append(voice.say("Set out: laps of %(width)s begin at %(at)s.") % marks)
    if wall_id in state.sealed:
        lines.append(voice.say("Its open edges are sealed."))
    return lines


def whole_coats(state: State, wall_id: str) -> list[Coat]:
    """Primer as it was put on: pieces that something fell between are one stretch to the eye."""
    found: list[Coat] = []
    for coat in sorted((c for c in state.coats if c.wall == wall_id), key=lambda c: c.from_mm):
        last = next((c for c in found if c.id == coat.id and c.to_mm == coat.from_mm), None)
        if last is None:
            found.append(copy(coat))
        else:
            last.to_mm = coat.to_mm
    return sorted(found, key=lambda coat: coat.id)


def coat_line(voice: Voice, coat: Coat) -> str:
    """Primer in plain sight: where and when, never how dry."""
    begun, ended = coat.start_ms // 1000, coat.primed_ms(coat.to_mm) // 1000
    names = {
        "stretch": voice.stretch(coat.from_mm, coat.to_mm),
        "from": voice.clock(begun),
        "to": voice.clock(ended),
    }
    return voice.say("Primed %(stretch)s, left to right, %(from)s to %(to)s.") % names


def _found_out(voice: Voice, job: Job, state: State, wall_id: str) -> list[str]:
    lines = words_found.about_wall(voice, job, state, wall_id)
    if f"behind {wall_id}" not in state.known:
        lines.append(voice.say("Nobody has looked behind and below it."))
    return lines


def sheet_facts(voice: Voice, job: Job, state: State, sheet_id: str) -> list[str]:
    """A sheet as one sees it; empty where none lies."""
    sheet = state.sheets.get(sheet_id)
    if sheet is None:
        return []
    lines = [voice.say("Laid at %(time)s.") % {"time": voice.clock(sheet.laid_at)}]
    if sheet.rolled_at is None:
        return [*lines, voice.say("Not rolled.")]
    return [*lines, voice.say("Rolled at %(time)s.") % {"time": voice.clock(sheet.rolled_at)}]


def corner_facts(voice: Voice, job: Job, state: State, number: int) -> list[str]:
    """What has been done to a corner besides its sheets."""
    corner = state.corners[number]
    done = (
        (corner.trimmed, voice.say("First sheet cut at 45° at %(time)s.")),
        (corner.filled, voice.say("Filled with hot bitumen at %(time)s.")),
        (corner.gusset, voice.say("Gusset set at %(time)s.")),
    )
    return [text % {"time": voice.clock(at)} for at, text in done if at is not None]


def rolls_facts(voice: Voice, job: Job, state: State) -> list[str]:
    """Strips that lie ready, and what each roll still gives."""
    lines = []
    cut_at = sorted({strip.cut_at for strip in state.strips})
    for at in cut_at:
        here = [strip for strip in state.strips if strip.cut_at == at]
        names = {
            "strips": voice.count("%(n)d strip lies", "%(n)d strips lie", len(here)),
            "time": voice.clock(at),
            "melted": sum(strip.melted for strip in here),
        }
        lines.append(
            voice.say("%(strips)s there, cut at %(time)s; film melted off %(melted)d.") % names
        )
    for roll in job.rolls:
        left = job.strips_per_roll - state.cut_from.get(roll.id, 0)
        gives = voice.count("%(n)d strip more", "%(n)d strips more", left)
        lines.append(
            voice.say("Roll %(roll)s gives %(gives)s.") % {"roll": roll.id, "gives": gives}
        )
    known = state.known.get("rolls")
    if known is not None:
        cold = voice.listed(list(known["is"])) or voice.say("none")
        names = {"time": voice.clock(known["at"]), "cold": cold}
        lines.append(voice.say("%(time)s checked: cold rolls: %(cold)s.") % names)
    return lines


def flame_facts(voice: Voice, job: Job, state: State) -> list[str]:
    """What burns and where, how much gas there is, where things stand."""
    lines = []
    for flame in state.flames.values():
        names = {
            "tool": capital(words.tool_name(voice, flame.tool)),
            "spot": words.spot_name(voice, flame.spot),
            "time": voice.clock(flame.lit_at),
            "who": words.hand_name(job, flame.who),
        }
        lines.append(voice.say("%(tool)s burns since %(time)s: %(who)s, %(spot)s.") % names)
    if state.gas is not None:
        gas = {"spot": words.spot_name(voice, state.gas), "left": voice.lasting(state.gas_left)}
        if state.gas_left:
            lines.append(voice.say("Gas: %(spot)s, flame left for %(left)s.") % gas)
        else:
            lines.append(voice.say("Gas: %(spot)s, the cylinder is empty.") % gas)
    spare = voice.count("%(n)d spare cylinder.", "%(n)d spare cylinders.", state.gas_spare)
    return [*lines, spare]
