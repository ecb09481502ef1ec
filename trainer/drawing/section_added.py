"""What is put on the old surface of a section, and what lies loose on the field."""

from __future__ import annotations

from itertools import accumulate, pairwise

from trainer.drawing.canvas import EDGE, MARGIN, Canvas, Scale
from trainer.drawing.markup import Box, num, path, rect_path
from trainer.drawing.palette import PAPER
from trainer.drawing.section_data import Section
from trainer.drawing.section_solids import HATCHES, rect, solid, wool
from trainer.drawing.section_work_data import Added, Finish

_PAVER = 400.0


def added_boxes(cut: Section, scale: Scale) -> list[Box]:
    """The box of each added layer, from the old surface upwards."""
    ends = accumulate([layer.thickness_mm for layer in cut.added], initial=-cut.added_mm)
    return [(MARGIN, scale.y(top), scale.x(0), scale.y(foot)) for foot, top in pairwise(ends)]


def draw_added(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """The added layers and, dashed, the surface they were put on."""
    boxes = added_boxes(cut, scale)
    for i, (layer, box) in enumerate(zip(cut.added, boxes, strict=True)):
        _added(canvas, f"added-{i}", layer, box)
    if boxes:
        y = boxes[0][3]
        line = path([(MARGIN, y), (scale.x(0), y)])
        canvas.shapes.append(
            f'<path d="{line}" stroke="{PAPER}" stroke-width="5"/>'
            f'<path class="old-surface" d="{line}" stroke-width="2.2" stroke-dasharray="9 4"/>'
        )


def _added(canvas: Canvas, ident: str, layer: Added, box: Box) -> None:
    hatch, extra = HATCHES[layer.material], ""
    if layer.material == "mineral wool" and box[3] - box[1] > 12:
        hatch, extra = "", wool(box)
    solid(canvas, ident, rect(box), hatch, layer.material, extra, layer.label)


BEYOND_STYLE = ' stroke-dasharray="14 3"'


def draw_beyond(canvas: Canvas, cut: Section, scale: Scale, beyond: float) -> None:
    """The roof surface further along the wall, where it lies higher or lower than in the cut."""
    y, surface, right = scale.y(beyond), scale.y(0), scale.x(0)
    if beyond > 0:
        fill = canvas.hatch("field")
        band = rect_path((MARGIN, y, right, surface))
        canvas.shapes.append(f'<path d="{band}" fill="{fill}" stroke="none"/>')
    line = path([(MARGIN, y), (right, y)])
    canvas.shapes.append(
        f'<path d="{line}" stroke="{PAPER}" stroke-width="4"/>'
        f'<path class="beyond" d="{line}" stroke-width="1.4"{BEYOND_STYLE}/>'
    )
    canvas.placer.avoid_line((MARGIN, y), (right, y))


def draw_finish(canvas: Canvas, cut: Section, scale: Scale) -> None:
    """Ballast or pavers on the field, up to the cant or the wall."""
    if not cut.finish:
        return
    high, cant = cut.finish.thickness_mm, max(0.0, cut.cant_mm + cut.foot_mm)
    leg = min(high, cant)
    corners = scale.all([(-cant, 0), (-cant + leg, leg), (-cant + leg, high)])
    left = [(MARGIN, scale.y(high)), (MARGIN, scale.y(0))]
    joints = _joints(cut.finish, scale, corners[2][0]) if cut.finish.material == "pavers" else ""
    hatch = "ballast" if cut.finish.material == "ballast" else "concrete"
    solid(canvas, "finish", [*corners, *left], hatch, cut.finish.material, joints)


def _joints(finish: Finish, scale: Scale, right: float) -> str:
    """Open joints between pavers, from the wall inwards."""
    top, bottom = num(scale.y(finish.thickness_mm)), num(scale.y(0))
    step = _PAVER * scale.per_mm
    xs = [right - i * step for i in range(1, int((right - MARGIN) / step) + 1)]
    lines = "".join([f"M{x:.1f} {top}V{bottom}" for x in xs])
    gap = f'<path d="{lines}" stroke="{PAPER}" stroke-width="4"/>'
    sides = "".join([f"M{x - 2:.1f} {top}V{bottom}M{x + 2:.1f} {top}V{bottom}" for x in xs])
    return f'{gap}<path d="{sides}" stroke-width="{EDGE}"/>' if xs else ""
