"""What is written on the parapet section: labels, dimensions, chalk line, torch, levels."""

from __future__ import annotations

from trainer.drawing.canvas import MARGIN, THIN, Canvas, Scale
from trainer.drawing.columns import Pointer, column
from trainer.drawing.dimensions import level_mark, scale_bar
from trainer.drawing.interaction import Axis, Movable, axes_over, movable, part
from trainer.drawing.labels import Label, dot, patch, write
from trainer.drawing.legend import Entry, legend
from trainer.drawing.lettering import SMALL
from trainer.drawing.markup import Box, Point, along, direction
from trainer.drawing.palette import ACCENT
from trainer.drawing.section_added import BEYOND_STYLE, added_boxes
from trainer.drawing.section_data import Chalk, Flame, Flashing, Section
from trainer.drawing.section_edge import draw_drop, draw_faces, face_entries, name_guardrail
from trainer.drawing.section_layers import deck_end_mm
from trainer.drawing.section_measures import level_dimensions, upright_dimensions
from trainer.drawing.section_sheets import flashing_line, pressed_home
from trainer.drawing.section_solids import called, spoken
from trainer.drawing.section_wall import layer_boxes
from trainer.drawing.symbols import TORCH_LENGTH, torch, torch_box


def draw_notes(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """Everything written on the cut, in the order in which it needs room."""
    if cut.chalk:
        _chalk(canvas, cut, scale, cut.chalk)
    if cut.flame:
        _flame(canvas, cut, scale, cut.flame)
    if cut.finish or cut.finish_mm is not None:
        _finish(canvas, cut, scale, cut.finished_mm)
    if cut.drop_mm:
        draw_drop(canvas, cut, scale, cut.drop_mm)
    draw_faces(canvas, cut, scale)
    upright_dimensions(canvas, cut, scale)
    aside = _inside_labels(canvas, cut, scale)
    aside += _core_label(canvas, cut, scale)
    _air_column(canvas, cut, scale, aside)
    _flags(canvas, cut, scale)
    if cut.guardrail:
        name_guardrail(canvas, cut, scale, cut.guardrail)
    level_dimensions(canvas, cut, scale)


def draw_foot(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """The key, the scale bar, and what is not to scale."""
    entries = face_entries(canvas, cut)
    if cut.added:
        mark = '<path d="M-11 0H11" stroke-width="2.2" stroke-dasharray="9 4"/>'
        entries.append(Entry(canvas.request.say("old surface"), mark=mark))
    if cut.beyond_mm is not None:
        mark = f'<path d="M-11 0H11" stroke-width="1.4"{BEYOND_STYLE}/>'
        entries.append(Entry(canvas.request.say("roof surface beyond"), mark=mark))
    if cut.chalk:
        mark = f'<path d="M0 -7V7" stroke="{ACCENT}" stroke-width="2.4"/>'
        entries.append(Entry(spoken(canvas, "chalk-line", "chalk line"), mark=mark))
    legend(canvas, entries)
    note = canvas.request.say("sheet thickness not to scale")
    scale_bar(canvas, scale.per_mm, canvas.request.length, note)


def _bands(canvas: Canvas, cut: Section, scale: Scale) -> list[tuple[str, Box]]:
    """Name and box of each level layer: deck, insulation, what is added, the finish."""
    old, under = scale.y(-cut.added_mm), scale.y(cut.deck_top_mm)
    deck = spoken(canvas, "deck", f"deck, {cut.deck.material}")
    bands = [(deck, (MARGIN, under, scale.x(deck_end_mm(cut)), scale.y(-cut.depth_mm)))]
    if cut.insulation:
        text = spoken(canvas, "insulation", f"insulation, {cut.insulation.material}")
        bands.append((text, (MARGIN, old, scale.x(0), under)))
    for i, (layer, box) in enumerate(zip(cut.added, added_boxes(cut, scale), strict=True)):
        bands.append((called(canvas, f"added-{i}", layer.label, layer.material), box))
    if cut.finish:
        text = spoken(canvas, "finish", cut.finish.material)
        top = scale.y(cut.finish.thickness_mm)
        bands.append((text, (MARGIN, top, scale.x(-cut.cant_mm), scale.y(0))))
    return bands


def _inside_labels(canvas: Canvas, cut: Section, scale: Scale) -> list[Pointer]:
    """Names of thick layers, written into them; pointers for the layers that are too thin."""
    aside: list[Pointer] = []
    for text, box in _bands(canvas, cut, scale):
        if text and not _knocked_out(canvas, text, box):
            at = (box[0] + 24, (box[1] + box[3]) / 2)
            slide = scale.x(0) - 10 - at[0]
            aside.append(Pointer(Label(text, room=_room(scale)), at, slide))
    return aside


def _knocked_out(canvas: Canvas, text: str, box: Box) -> bool:
    """Write ``text`` into ``box`` on a clear patch; False where it does not fit."""
    label = Label(text, room=box[2] - box[0] - 16)
    wide, high = label.extent()
    if high + 5 > box[3] - box[1] or wide + 10 > box[2] - box[0]:
        return False
    left = (box[0] + box[2] - wide) / 2
    top = (box[1] + box[3] - high) / 2
    place = (left, top, left + wide, top + high)
    if not canvas.placer.free(place, lines_too=False):
        return False
    canvas.lines.append(patch((left - 4, top, left + wide + 4, top + high)))
    write(canvas, label, place)
    return True


def _core_label(canvas: Canvas, cut: Section, scale: Scale) -> list[Pointer]:
    """Write the core's name into it; a pointer where there is no room."""
    if cut.layers:
        return []
    words = spoken(canvas, "core", f"parapet, {cut.core}")
    core = (
        scale.x(cut.core_from_mm),
        scale.y(cut.core_top_mm),
        scale.x(cut.core_to_mm),
        scale.y(0),
    )
    if "flashing_height" in cut.dimensions and words:
        high = (*core[:3], scale.y(cut.up_mm) - 6)
        if _knocked_out(canvas, words, _above_openings(cut, scale, high)):
            return []
        core = (min(core[0] + 76, core[2]), *core[1:])
    if not words or _knocked_out(canvas, words, _above_openings(cut, scale, core)):
        return []
    return [
        Pointer(Label(words, room=_room(scale)), (core[0] + 8, core[1] * 0.86 + core[3] * 0.14))
    ]


def _flags(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """Names above the parapet, each left of the line down to what it names."""
    top, left, right = scale.y(cut.height_mm), scale.x(cut.core_from_mm), scale.x(cut.core_to_mm)
    down = scale.y(cut.core_top_mm) + 24
    flags = _layer_flags(canvas, cut, scale) if cut.layers else []
    if cut.nailer_mm:
        middle = (left * 0.4 + right * 0.6, top + cut.nailer_mm * scale.per_mm / 2)
        flags.append((spoken(canvas, "nailer", "nailer, timber"), middle))
    if cut.foam and cut.foam.side == "outside":
        x = scale.x(cut.core_to_mm + cut.foam.thickness_mm / 2)
        flags.append((spoken(canvas, "foam", "foam"), (x, down)))
    if cut.cladding:
        x = scale.x(cut.width_mm - cut.cladding.thickness_mm / 2)
        words = spoken(canvas, "cladding", f"cladding, {cut.cladding.material}")
        flags.append((words, (x, down)))
    _fly(canvas, [flag for flag in flags if flag[0]], top - 16)


def _layer_flags(canvas: Canvas, cut: Section, scale: Scale) -> list[tuple[str, Point]]:
    """Names of the parapet's layers, written into them where they fit; flags for the others."""
    flags = []
    boxes = layer_boxes(cut, scale, scale.y(cut.deck_top_mm))
    for i, (layer, box) in enumerate(zip(cut.layers, boxes, strict=True)):
        text = called(canvas, f"layer-{i}", layer.label, layer.material)
        above = (box[0], box[1] + 30, box[2], min(box[3], scale.y(0)))
        if text and not _knocked_out(canvas, text, _above_openings(cut, scale, above)):
            flags.append((text, ((box[0] + box[2]) / 2, box[1] + 18 + 5 * (i % 2))))
    return flags


def _above_openings(cut: Section, scale: Scale, core: Box) -> Box:
    """The part of the core that no void, vent or cant reaches into."""
    heads = [o.to_mm for o in (cut.void, cut.vent) if o]
    return (core[0], core[1], core[2], min(core[3], scale.y(max(heads))) if heads else core[3])


def _fly(canvas: Canvas, flags: list[tuple[str, Point]], bottom: float) -> None:
    for text, target in flags:
        label = Label(text, room=target[0] - MARGIN - 12)
        wide, high = label.extent()
        left = target[0] - wide - 6
        box = (left, bottom - high, left + wide, bottom)
        while not canvas.placer.free(box):
            bottom -= 4
            box = (left, bottom - high, left + wide, bottom)
        write(canvas, label, box)
        middle = bottom - high / 2
        canvas.line([(target[0] - 4, middle), (target[0], middle), target], THIN)
        canvas.lines.append(dot(target))
        bottom -= high + 3


def _air_column(canvas: Canvas, cut: Section, scale: Scale, aside: list[Pointer]) -> None:
    """Names in the air above the roof, with leaders to what they name."""
    room = _room(scale)
    pointers = list(aside)
    for ident, words, target, slide in _targets(canvas, cut, scale):
        text = spoken(canvas, ident, words)
        if text:
            pointers.append(Pointer(Label(text, room=room), target, slide))
    column(canvas, pointers, MARGIN, scale.y(cut.height_mm) + 6, _air_ends(canvas, cut, scale))


def _air_ends(canvas: Canvas, cut: Section, scale: Scale) -> float:
    """How far down labels may stand: clear of the roof, a chalk line's grip, the finish."""
    grip = cut.chalk is not None and cut.chalk.movable is not None
    low = scale.y(0) - (74 if grip and not canvas.request.answered else 30)
    if cut.finished_mm > 0:
        low = min(low, scale.y(cut.finished_mm) - 22)
    if cut.beyond_mm:
        low = min(low, scale.y(cut.beyond_mm) - 8)
    return low


def _room(scale: Scale) -> float:
    """How wide a label in the air may be."""
    return min(124.0, scale.x(0) - MARGIN - 60)


def _targets(canvas: Canvas, cut: Section, scale: Scale) -> list[tuple[str, str, Point, float]]:
    """Parts named in the air: id, words, the point meant, how far that may slide to the right."""
    found: list[tuple[str, str, Point, float]] = []
    reach = cut.cant_mm
    if cut.flashing:
        reach += cut.flashing.field_lap_mm
        found.append(
            ("flashing", "flashing sheet", _on_flashing(canvas, cut, scale, cut.flashing), 0.0)
        )
    if cut.field_sheets:
        x = MARGIN + 24
        slide = max(scale.x(-reach) - 6 - x, 0.0)
        found.append(("field-sheet", "field sheet", (x, scale.y(0) - 1.5), slide))
    if cut.cant:
        leg = cut.cant_mm * 0.3
        at = scale.at((-leg, cut.foot_mm + leg))
        found.append(("cant", f"cant, {cut.cant.material}", at, 0.0))
    core = cut.core_to_mm - cut.core_from_mm
    for ident, opening, share in (("void", cut.void, 0.34), ("vent", cut.vent, 0.14)):
        if opening:
            at = (cut.core_from_mm + core * share, (opening.from_mm + opening.to_mm) / 2)
            found.append((ident, ident, scale.at(at), 0.0))
    if cut.foam and cut.foam.side == "inside":
        at = (cut.foam.thickness_mm / 2, cut.core_top_mm * 0.8)
        found.append(("foam", "foam", scale.at(at), 0.0))
    return found


def _on_flashing(canvas: Canvas, cut: Section, scale: Scale, sheet: Flashing) -> Point:
    """A point of the flashing sheet on the wall, or on the cant where it ends there."""
    points = flashing_line(cut, scale, sheet, pressed_home(canvas, cut))
    corner = next(i for i, point in enumerate(points) if point[0] >= scale.x(0) - 12)
    return along(points[corner], points[min(corner + 1, len(points) - 1)], 0.45)


def _chalk(canvas: Canvas, cut: Section, scale: Scale, chalk: Chalk) -> None:
    mark = (
        f'<path class="chalk" d="M0 -3V-26" stroke="{ACCENT}" stroke-width="2.4"/>'
        f'<path d="M-5 -12L0 -3L5 -12Z" fill="{ACCENT}" stroke="none"/>'
    )
    x, y = scale.x(-chalk.at_mm), scale.y(0)
    canvas.placer.take((x - 6, y - 26, x + 6, y))
    if not chalk.movable:
        shapes = f'<g transform="translate({x:.1f} {y:.1f})">{mark}</g>'
        own, hit = canvas.request.say("chalk line"), ((x, y - 26), (x, y))
        part(canvas, "chalk-line", own, shapes, hit, layer="lines")
        return
    axis = Axis("x", scale.x(0), -1 / scale.per_mm, chalk.at_mm, chalk.movable)
    name = spoken(canvas, "chalk-line", "chalk line")
    movable(canvas, Movable("chalk-line", name, (axis,), mark, (0, -38), y))


def _flame(canvas: Canvas, cut: Section, scale: Scale, flame: Flame) -> None:
    tip = scale.at(flame.at)
    heading = direction(tip, scale.at(flame.towards or (0.0, 0.0)))
    name = canvas.request.say("torch")
    axes = axes_over(scale, flame.at, flame.movable_x, flame.movable_y)
    canvas.placer.take(torch_box(tip, heading))
    canvas.reach(torch_box(tip, heading)[1], torch_box(tip, heading)[3])
    if axes:
        grip = (-heading[0] * TORCH_LENGTH, -heading[1] * TORCH_LENGTH)
        still = tip[1] if axes[0].letter == "x" else tip[0]
        movable(canvas, Movable("flame", name, axes, torch((0, 0), heading), grip, still))
        return
    box = torch_box(tip, heading)
    part(canvas, "flame", name, torch(tip, heading), (box[:2], box[2:]), layer="lines")


def _finish(canvas: Canvas, cut: Section, scale: Scale, finish: float) -> None:
    y = scale.y(finish)
    canvas.line([(MARGIN, y), (scale.x(0), y)], 1.2, ' stroke-dasharray="12 3 2 3"')
    level_mark(canvas, MARGIN + 26, y)
    label = Label(canvas.request.say("finished surface"), size=SMALL)
    wide, high = label.extent()
    write(canvas, label, (MARGIN + 38, y - high - 1, MARGIN + 38 + wide, y - 1))
