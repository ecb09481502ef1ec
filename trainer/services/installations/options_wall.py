"""What can be done at a wall, a sheet, a lap and a corner."""

from __future__ import annotations

from trainer.installation.air import coats_on
from trainer.installation.laps import (
    corner_sheet_id,
    lap_ids_due,
    laps,
    sheets_to_lay,
    wall_sheet_id,
)
from trainer.services.installations.figures import stretches
from trainer.services.installations.options_bench import Bench
from trainer.services.installations.options_fields import (
    Entry,
    Option,
    choice,
    length,
    lengths,
    tick,
)
from trainer.services.installations.words import capital, lap_short, wall_name
from trainer.services.installations.words_known import whole_coats
from trainer.services.pages import Row

_WORTH_PRIMING_MM = 100


def at_wall(bench: Bench, wall: str) -> list[Option]:
    """Finding out, making ready, and rows of sheets and laps."""
    if wall not in [part.id for part in bench.job.walls]:
        return []
    return [*_find_out(bench, wall), *_make_ready(bench, wall), *_rows(bench, wall)]


def _find_out(bench: Bench, wall: str) -> list[Option]:
    here = {"wall": wall}
    at = length(bench.voice, "at", bench.voice.say("Where along it"), _worth_touching(bench, wall))
    return [
        bench.option("look", here),
        bench.option("ask", here),
        bench.option("probe", here),
        bench.option("measure", here),
        bench.option("touch", here, (at,)),
    ]


def _worth_touching(bench: Bench, wall: str) -> int:
    """The middle of the newest primer that lies bare; without any, of the widest bare wall."""
    bare = _uncovered(bench, wall) or [(0, bench.job.wall(wall).length_mm)]
    for coat in reversed(whole_coats(bench.state, wall)):
        for low, high in bare:
            start, end = max(low, coat.from_mm), min(high, coat.to_mm)
            if start < end:
                return (start + end) // 2
    return sum(max(bare, key=lambda part: part[1] - part[0])) // 2


def _uncovered(bench: Bench, wall: str) -> list[tuple[int, int]]:
    """The stretches of a wall that no sheet lies on."""
    found, at = [], 0
    ends = sorted(e for s in bench.state.sheets.values() if (e := s.on(wall)))
    for low, high in [*ends, (bench.job.wall(wall).length_mm,) * 2]:
        if low > at:
            found.append((at, low))
        at = max(at, high)
    return found


def _make_ready(bench: Bench, wall: str) -> list[Option]:
    state, here = bench.state, {"wall": wall}
    found = []
    if not bench.job.wall(wall).rail and wall not in state.rails:
        found.append(bench.option("rail", here))
    found.append(bench.option("dry", here, _ends(bench, 0, bench.job.wall(wall).length_mm)))
    found.append(bench.option("prime", here, _ends(bench, *_bare(bench, wall))))
    say = bench.voice.say
    line = length(bench.voice, "distance", say("How far from the wall’s face"), None)
    found.append(bench.option("snap", here, (line,)))
    found.append(bench.option("set out", here, _set_out(bench, wall)))
    if any(sheet.on(wall) for sheet in state.sheets.values()):
        found.append(bench.option("seal", here))
    return found


def _ends(bench: Bench, start: int, end: int) -> tuple[Entry, Entry]:
    say = bench.voice.say
    return (
        length(bench.voice, "from", say("From"), start),
        length(bench.voice, "to", say("To"), end),
    )


def _bare(bench: Bench, wall: str) -> tuple[int, int]:
    """The first stretch with neither primer nor sheet; the whole wall where there is none."""
    start, end = 0, bench.job.wall(wall).length_mm
    taken = [(low, high) for low, high, _ in coats_on(bench.state, wall, start, end)]
    taken += [ends for sheet in bench.state.sheets.values() if (ends := sheet.on(wall))]
    at = start
    for low, high in sorted(taken):
        if low - at >= _WORTH_PRIMING_MM:
            return at, low
        at = max(at, high)
    return (at, end) if end - at >= _WORTH_PRIMING_MM else (start, end)


def _set_out(bench: Bench, wall: str) -> tuple[Entry, ...]:
    """Where laps begin: what was marked before, else full sheets from the left."""
    job, voice, say = bench.job, bench.voice, bench.voice.say
    marked = bench.state.layouts.get(wall)
    printed = job.sheet.side_lap_mm
    start, end = job.stretch(wall)
    step = job.sheet.width_mm - printed
    starts = marked["laps"] if marked else list(range(start + step, end - printed, step))
    stretch = say("Sheets from %(from)s to %(to)s; a sheet is %(width)s wide.") % {
        "from": voice.along(start),
        "to": voice.along(end),
        "width": voice.along(job.sheet.width_mm),
    }
    return (
        lengths(voice, "laps", say("Where each lap begins, from the left"), starts, stretch),
        length(
            voice, "lap_mm", say("How wide each lap is"), marked["lap_mm"] if marked else printed
        ),
    )


def _rows(bench: Bench, wall: str) -> list[Option]:
    """Sheets and laps of a wall, one after the other."""
    state = bench.state
    ids = [wall_sheet_id(wall, k) for k in range(len(sheets_to_lay(bench.job, state, wall)))]
    lay = [k for k, sheet in enumerate(ids) if sheet not in state.sheets]
    lying = [k for k, sheet in enumerate(ids) if sheet in state.sheets]
    roll = [k for k in lying if state.sheets[ids[k]].rolled_at is None]
    found = []
    if not ids:
        found.append(bench.option("lay", {"wall": wall}, (_first_sheet(bench, [0]),)))
    if lay:
        found.append(_lay(bench, wall, lay, "lay-row"))
    if roll:
        found.append(_roll(bench, wall, roll, "roll-row"))
    weld = [
        int(lap.id.rpartition(":")[2]) for lap in laps(state, wall) if lap.id not in state.welds
    ]
    if weld:
        found.append(_weld(bench, wall, weld, "weld-row"))
    return found


def _first_sheet(bench: Bench, numbers: list[int]) -> Entry:
    return choice("sheet", bench.voice.say("From sheet"), _numbers(numbers), str(numbers[0]))


def _numbers(numbers: list[int]) -> list[Row]:
    return [Row(str(number), str(number + 1)) for number in numbers]


def _lay(bench: Bench, wall: str, numbers: list[int], id: str) -> Option:
    say = bench.voice.say
    halves = (Row("top", say("upper half first")), Row("bottom", say("lower half first")))
    entries = (
        *_from_to(bench, numbers),
        choice("half", say("Which half is stuck down first"), halves, "top"),
        tick("rolling", say("Roll each one at once"), True),
    )
    label = say("Lay sheets in a row, one after the other") if len(numbers) > 1 else ""
    return bench.option("lay", _fixed(wall, numbers), entries, id=id, label=label)


def _fixed(wall: str, numbers: list[int], name: str = "sheet") -> dict[str, object]:
    return {"wall": wall} if len(numbers) > 1 else {"wall": wall, name: numbers[0]}


def _from_to(bench: Bench, numbers: list[int]) -> tuple[Entry, ...]:
    """From which to which sheet, where there is a choice."""
    if len(numbers) < 2:
        return ()
    say, rows = bench.voice.say, _numbers(numbers)
    return (
        choice("sheet", say("From sheet"), rows, rows[0].id),
        choice("through", say("To sheet"), rows, rows[-1].id),
    )


def _roll(bench: Bench, wall: str, numbers: list[int], id: str) -> Option:
    label = bench.voice.say("Roll sheets in a row") if len(numbers) > 1 else ""
    return bench.option("roll", _fixed(wall, numbers), _from_to(bench, numbers), id=id, label=label)


def _weld(bench: Bench, wall: str, numbers: list[int], id: str) -> Option:
    if len(numbers) < 2:
        return bench.option("weld", {"wall": wall, "lap": numbers[0]}, id=id)
    say = bench.voice.say
    rows = [Row(str(n), lap_short(bench.voice, bench.state, f"{wall}:{n}")) for n in numbers]
    entries = (
        choice("lap", say("From"), rows, rows[0].id),
        choice("through", say("To"), rows, rows[-1].id),
    )
    label = say("Weld laps in a row, one after the other")
    return bench.option("weld", {"wall": wall}, entries, id=id, label=label)


def at_stretch(bench: Bench, wall: str, number: int) -> list[Option]:
    """A piece of a wall that is not set out yet."""
    pieces = stretches(bench.job, wall) if _is_wall(bench, wall) else []
    if number >= len(pieces):
        return []
    start, end = pieces[number]
    at = length(bench.voice, "at", bench.voice.say("Where along it"), (start + end) // 2)
    here = {"wall": wall}
    return [
        bench.option("prime", here, _ends(bench, start, end)),
        bench.option("touch", here, (at,)),
        bench.option("dry", here, _ends(bench, start, end)),
    ]


def at_sheet(bench: Bench, wall: str, number: int) -> list[Option]:
    """A sheet that is marked or lies."""
    due = sheets_to_lay(bench.job, bench.state, wall) if _is_wall(bench, wall) else []
    if number >= len(due):
        return []
    here, start, end = {"wall": wall, "sheet": number}, *due[number]
    if wall_sheet_id(wall, number) in bench.state.sheets:
        return [_roll(bench, wall, [number], ""), bench.option("strip", here)]
    at = length(bench.voice, "at", bench.voice.say("Where along it"), far_end(bench, wall, end))
    return [
        _lay(bench, wall, [number], ""),
        bench.option("prime", {"wall": wall}, _ends(bench, start, end)),
        bench.option("touch", {"wall": wall}, (at,)),
        _roll(bench, wall, [number], ""),
    ]


def far_end(bench: Bench, wall: str, end: int) -> int:
    """Where a finger tells most of the primer under a sheet that ends there: it was primed last."""
    through = len(coats_on(bench.state, wall, end - 1, end + 1)) == 1
    return end if through and end < bench.job.wall(wall).length_mm else end - 1


def _is_wall(bench: Bench, wall: str) -> bool:
    return any(part.id == wall for part in bench.job.walls)


def at_lap(bench: Bench, wall: str, number: int) -> list[Option]:
    """A lap of two sheets that lie."""
    lap = f"{wall}:{number}"
    here = next((part for part in laps(bench.state, wall) if part.id == lap), None)
    if here is None or lap not in lap_ids_due(bench.job, bench.state, wall):
        return []
    spot = {"tool": "torch", "wall": wall, "at": max(0, here.middle_mm), "off": 0}
    label = bench.voice.say("Light the torch here, or carry it here")
    return [
        bench.option("weld", {"wall": wall, "lap": number}),
        bench.option("light", spot, label=label),
        bench.option("measure", {"wall": wall}),
    ]


def at_corner(bench: Bench, corner: int) -> list[Option]:
    """A corner: its two sheets, its cut, its filling, its gusset."""
    if corner >= len(bench.job.corners):
        return []
    state, here = bench.state, {"corner": corner}
    lying = [n for n in (1, 2) if corner_sheet_id(corner, n) in state.sheets]
    legs = () if lying else bench.job.corner_stretches(corner)
    found = [_prime_leg(bench, *leg) for leg in legs]
    if len(lying) < 2:
        found.insert(0, bench.option("lay corner", {**here, "number": len(lying) + 1}))
    top = {**here, "number": max(lying, default=1)}
    found += [
        bench.option("roll corner", top),
        bench.option("trim", here),
        bench.option("fill", here),
        bench.option("gusset", here, (_reach(bench),)),
    ]
    if lying:
        found.append(bench.option("strip corner", top))
    return found


def _reach(bench: Bench) -> Entry:
    return length(bench.voice, "reach", bench.voice.say("How far it reaches past the corner"), None)


def _prime_leg(bench: Bench, wall: str, start: int, end: int) -> Option:
    names = {"wall": wall_name(bench.voice, wall)}
    label = capital(bench.voice.say("prime the corner’s leg on %(wall)s") % names)
    return bench.option(
        "prime", {"wall": wall}, _ends(bench, start, end), id=f"prime-{wall}", label=label
    )
