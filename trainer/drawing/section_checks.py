"""What cannot be drawn as a parapet section, said with field, value and what is allowed."""

from __future__ import annotations

from trainer.drawing.section_data import Flashing, Opening, Section
from trainer.drawing.section_work_data import Bridge, Detail, Guardrail
from trainer.errors import InputError, MissingField


def check(cut: Section) -> None:
    """Raises InputError on the first thing that cannot be drawn."""
    _check_wall(cut)
    if cut.cant_mm > cut.height_mm:
        raise InputError("cant.leg_mm", cut.cant_mm, "≤ height_mm")
    if cut.core_top_mm <= 0:
        raise InputError("nailer_mm", cut.nailer_mm, f"< height_mm ({cut.height_mm:g})")
    for name, opening in (("void", cut.void), ("vent", cut.vent)):
        if opening:
            _check_opening(cut, name, opening)
    if cut.flashing:
        _check_flashing(cut, cut.flashing)
    if cut.bridge:
        _check_bridge(cut, cut.bridge)
    if cut.guardrail:
        _check_guardrail(cut, cut.guardrail)
    if cut.detail:
        _check_detail(cut, cut.detail)
    if cut.beyond_mm is not None and not -cut.depth_mm < cut.beyond_mm < cut.height_mm:
        allowed = f"above the underside of the deck ({-cut.depth_mm:g}) and below height_mm"
        raise InputError("beyond_mm", cut.beyond_mm, f"{allowed} ({cut.height_mm:g})")
    _check_finish(cut)
    _check_faces(cut)
    _check_dimensions(cut)


def _check_wall(cut: Section) -> None:
    if cut.layers:
        _check_layers(cut)
    elif cut.core is None:
        raise MissingField("core", '"masonry" or "concrete" or "timber framing", or "layers"')
    elif cut.core_to_mm - cut.core_from_mm < 30:
        raise InputError("width_mm", cut.width_mm, "foam and cladding and a core ≥ 30 mm")


def _check_layers(cut: Section) -> None:
    instead = {"core": cut.core, "foam": cut.foam, "cladding": cut.cladding, "void": cut.void}
    for name, given in instead.items():
        if given is not None:
            raise InputError("layers", len(cut.layers), f"none where {name} is given")
    together = sum([layer.thickness_mm for layer in cut.layers])
    if abs(together - cut.width_mm) > 0.5:
        raise InputError("width_mm", cut.width_mm, f"the layers together ({together:g})")
    for i, layer in enumerate(cut.layers):
        low = -cut.depth_mm if layer.from_mm is None else layer.from_mm
        high = cut.core_top_mm if layer.to_mm is None else layer.to_mm
        if not low < high <= cut.core_top_mm:
            allowed = f"above its foot ({low:g}) and no higher than the wall ({cut.core_top_mm:g})"
            raise InputError(f"layers[{i}].to_mm", high, allowed)
        if layer.open and layer.material != "cavity":
            raise InputError(f"layers[{i}].open", True, 'false unless material is "cavity"')
        if layer.open and cut.nailer_mm:
            raise InputError(f"layers[{i}].open", True, "false where a nailer lies on it")


def _check_opening(cut: Section, name: str, opening: Opening) -> None:
    if not -cut.depth_mm <= opening.from_mm < opening.to_mm <= cut.core_top_mm:
        allowed = f"from_mm above it and no higher than the core ({cut.core_top_mm:g})"
        raise InputError(f"{name}.to_mm", opening.to_mm, allowed)


def _check_flashing(cut: Section, sheet: Flashing) -> None:
    top = cut.width_mm if sheet.top_mm is None else sheet.top_mm
    least = cut.foot_mm + cut.cant_mm
    if sheet.foot == "old" and not cut.added:
        raise InputError("flashing.foot", "old", '"new" where no layers are added')
    if not least <= cut.up_mm <= cut.height_mm:
        allowed = f"cant ≤ up_mm ≤ height_mm ({least:g} to {cut.height_mm:g})"
        raise InputError("flashing.up_mm", cut.up_mm, allowed)
    if top > cut.width_mm:
        raise InputError("flashing.top_mm", top, f"≤ width_mm ({cut.width_mm:g})")
    if sheet.outer_drop_mm and (cut.up_mm < cut.height_mm or top < cut.width_mm):
        allowed = "0 unless the sheet covers the whole top"
        raise InputError("flashing.outer_drop_mm", sheet.outer_drop_mm, allowed)


def _check_bridge(cut: Section, bridge: Bridge) -> None:
    if cut.flashing is None:
        raise InputError("bridge.gap_mm", bridge.gap_mm, "no bridge without a flashing sheet")
    up = cut.up_mm - cut.foot_mm - cut.cant_mm
    most = min(up, cut.flashing.field_lap_mm)
    if bridge.gap_mm > most:
        allowed = f"≤ {most:g}, as far as the sheet runs up the wall and onto the field"
        raise InputError("bridge.gap_mm", bridge.gap_mm, allowed)


def _check_guardrail(cut: Section, rail: Guardrail) -> None:
    at = cut.width_mm if rail.at_mm is None else rail.at_mm
    if at > cut.width_mm:
        raise InputError("guardrail.at_mm", at, f"≤ width_mm ({cut.width_mm:g})")
    base = cut.height_mm if at >= 0 else 0.0
    if rail.height_mm <= base:
        raise InputError("guardrail.height_mm", rail.height_mm, f"above where it stands ({base:g})")


def _check_detail(cut: Section, detail: Detail) -> None:
    x, y = detail.at
    if x > cut.width_mm or not -cut.depth_mm <= y <= cut.top_mm:
        allowed = f"on the section: x ≤ {cut.width_mm:g}, y {-cut.depth_mm:g} to {cut.top_mm:g}"
        raise InputError("detail.at", list(detail.at), allowed)


def _check_finish(cut: Section) -> None:
    if cut.finish is None:
        return
    if cut.finish_mm is not None:
        raise InputError("finish_mm", cut.finish_mm, "absent where finish is given")
    if cut.finish.thickness_mm >= cut.height_mm:
        allowed = f"< height_mm ({cut.height_mm:g})"
        raise InputError("finish.thickness_mm", cut.finish.thickness_mm, allowed)


def _check_faces(cut: Section) -> None:
    seen: set[str] = set()
    for i, face in enumerate(cut.faces):
        if face.face in seen:
            raise InputError(f"faces[{i}].face", face.face, "each face once")
        seen.add(face.face)


def _check_dimensions(cut: Section) -> None:
    needs = {
        "height_old": ("added", cut.added),
        "flashing_height": ("flashing", cut.flashing),
        "guardrail": ("guardrail", cut.guardrail),
    }
    for i, name in enumerate(cut.dimensions):
        field, given = needs.get(name, ("", True))
        if not given:
            raise InputError(f"dimensions[{i}]", name, f"only where {field} is given")
