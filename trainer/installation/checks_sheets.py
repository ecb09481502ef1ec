"""Primer and sheets against the rule book: what they lie on, how they lap, how they lie."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from trainer.installation.checks import Check, Fact, Facts, Look
from trainer.installation.laps import all_laps, corner_sheet_id, laps
from trainer.installation.limits import value
from trainer.installation.state import Sheet


def _coats(look: Look) -> Facts:
    limits = look.limits
    spread = value(limits, "surface-above-dew-point", -99)
    humid = value(limits, "relative-humidity", 101)
    for coat in look.state.coats:
        place = f"primer {coat.id}"
        if coat.damp_mm:
            yield Fact("wet-surface", place, coat.by, {"wall": coat.wall, "damp_mm": coat.damp_mm})
        if coat.spread_k < spread:
            facts = {"wall": coat.wall, "spread_k": coat.spread_k, "required_k": spread}
            yield Fact("surface-above-dew-point", place, coat.by, facts)
        if coat.rh_pct > humid:
            facts = {"wall": coat.wall, "rh_pct": coat.rh_pct, "most_pct": humid}
            yield Fact("relative-humidity", place, coat.by, facts)
        if coat.rain:
            yield Fact("wet-weather", place, coat.by, {"wall": coat.wall})


def _sheets(look: Look) -> Facts:
    return chain.from_iterable(_sheet(look, sheet) for sheet in look.state.sheets.values())


def _sheet(look: Look, sheet: Sheet) -> Facts:
    yield from _primer_under(look, sheet)
    yield from _air_and_roll(look, sheet)
    laying, place, by = sheet.laying, sheet.id, sheet.by
    need = value(look.limits, "lap-onto-field")
    if sheet.field_lap_mm < need:
        facts = {"lap_mm": sheet.field_lap_mm, "required_mm": need}
        yield Fact("lap-onto-field", place, sheet.line_by or by, facts)
    if sheet.wrinkled:
        yield Fact("defects-rejected", place, by, {})
    if laying.rain:
        yield Fact("wet-weather", place, by, {})


def _primer_under(look: Look, sheet: Sheet) -> Facts:
    laying, place, by = sheet.laying, sheet.id, sheet.by
    latest = look.job.paper.latest_min
    if laying.bare_mm:
        yield Fact("primed-surfaces", place, by, {"bare_mm": laying.bare_mm})
    if laying.undried_min:
        yield Fact("primer-touch-dry", place, by, {"missing_min": laying.undried_min})
    if laying.age_min > latest:
        facts = {"age_min": laying.age_min, "latest_min": latest}
        yield Fact("primer-never-after", place, by, facts)
    if laying.spoilt == "rain":
        yield Fact("wet-surface", place, by, {"spoilt": laying.spoilt})
    elif laying.spoilt:
        yield Fact("primer-ahead", place, by, {"spoilt": laying.spoilt})


def _air_and_roll(look: Look, sheet: Sheet) -> Facts:
    laying, place, by, limits = sheet.laying, sheet.id, sheet.by, look.limits
    spread = value(limits, "surface-above-dew-point", -99)
    coldest = max(look.job.paper.coldest_c, value(limits, "adhesive-lap-temperature", -99))
    kept_from = value(limits, "cold-storage-from", -99)
    relaxed = value(limits, "relaxing-time")
    if laying.spread_k < spread:
        facts = {"spread_k": laying.spread_k, "required_k": spread}
        yield Fact("surface-above-dew-point", place, by, facts)
    if laying.surface_c < coldest:
        facts = {"surface_c": laying.surface_c, "least_c": coldest}
        yield Fact("adhesive-lap-temperature", place, by, facts)
    if laying.cold and laying.air_c < kept_from:
        facts = {"air_c": laying.air_c, "from_c": kept_from}
        yield Fact("cold-storage", place, by, facts)
    if laying.relaxed_min < relaxed:
        facts = {"relaxed_min": laying.relaxed_min, "required_min": relaxed}
        yield Fact("relaxing-time", place, by, facts)
    dry = value(limits, "dry-since-rain")
    if laying.since_rain_min is not None and laying.since_rain_min < dry:
        facts = {"since_min": laying.since_rain_min, "required_min": dry}
        yield Fact("dry-since-rain", place, by, facts)


def _laps(look: Look) -> Facts:
    side, clear = value(look.limits, "side-lap"), value(look.limits, "lap-clearance")
    for lap in all_laps(look.job, look.state):
        place = f"lap {lap.id}"
        marked = look.state.layouts[lap.wall]["by"]  # where laps come is decided in the set-out
        if lap.width_mm < side:
            yield Fact("side-lap", place, marked, {"lap_mm": lap.width_mm, "required_mm": side})
        for low, high in look.job.wall(lap.wall).field_laps:
            gap = max(low - lap.to_mm, lap.from_mm - high)
            if gap < clear:
                facts = {"clear_mm": gap, "required_mm": clear, "field_lap": [low, high]}
                yield Fact("lap-clearance", place, marked, facts)
                break
        if lap.rolled and not lap.bonded and lap.id not in look.state.welds:
            yield Fact("defects-rejected", place, lap.by, {"film": True})


def _corners(look: Look) -> Facts:
    cover = value(look.limits, "gusset-cover")
    for i, corner in enumerate(look.state.corners):
        second = look.state.sheets.get(corner_sheet_id(i, 2))
        if second is not None and not corner.trimmed_before:
            yield Fact("t-joint-cut", f"corner-{i}", second.by, {})
        if corner.gusset is not None and corner.reach_mm < cover:
            facts = {"reach_mm": corner.reach_mm, "required_mm": cover}
            yield Fact("gusset-cover", f"corner-{i}", corner.by, facts)


def open_walls(look: Look) -> Iterator[tuple[str, int, dict[str, int]]]:
    """Walls on which sheets lie that water can get behind, with the decision that left them so."""
    from trainer.installation.laps import lap_ids_due, sheets_to_lay, unclosed

    state = look.state
    still = unclosed(look.job, state)
    for wall in look.job.walls:
        here = [s for s in state.sheets.values() if s.on(wall.id)]
        if not here or wall.id in state.sealed:
            continue
        due = lap_ids_due(look.job, state, wall.id)
        gaps = len(due) - len(laps(state, wall.id))
        names = {s.id for s in here}
        holes = sum(o.id in names or o.id.startswith(f"lap {wall.id}:") for o in still)
        if gaps > 0 or holes or not sheets_to_lay(look.job, state, wall.id):
            yield wall.id, max(s.by for s in here), {"gaps": max(gaps, 0), "open": holes}


def _left_open(look: Look) -> Facts:
    """Edges left open: for the night, or when the rain comes."""
    state = look.state
    raining = look.job.weather.raining(state.now)
    if state.ended is None and not raining:
        return
    for wall, by, facts in open_walls(look):
        yield Fact("end-of-day-seal", f"wall {wall}", by, facts)


CHECKS = (
    Check("coats", frozenset({"coat", "sheet"}), _coats),
    Check("sheets", frozenset({"sheet"}), _sheets),
    Check("laps", frozenset({"sheet", "flame"}), _laps),
    Check("corners", frozenset({"sheet"}), _corners),
    Check("left open", frozenset({"sheet", "end", "weather"}), _left_open),
)
