"""What is typed about tomorrow's walls: shape only. What it is worth, the services decide."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from flask_babel import gettext as _
from flask_babel import lazy_gettext as _l
from flask_wtf import FlaskForm
from wtforms import (
    FieldList,
    Form,
    FormField,
    RadioField,
    SelectField,
    StringField,
    TextAreaField,
)
from wtforms.fields.choices import SelectChoice as Choice

from trainer.services.installations.site_form import MOST_BEHIND, MOST_WALLS, wall_letter
from trainer.services.installations.site_refusals import Problem

_TYPED = {"autocomplete": "off"}
_AS_BEFORE = ("height", "cant", "lap_width", "told")
"""What a wall most often has in common with the one before it."""


class StretchForm(Form):
    what = SelectField(
        _l("What burns in or behind it"),
        choices=[
            Choice("", _l("Nothing")),
            Choice("timber nailer", _l("Timber nailer")),
            Choice("timber board", _l("Timber board")),
            Choice("wood fibre", _l("Wood fibre")),
            Choice("foam", _l("Foam")),
        ],
        validate_choice=False,
    )
    start = StringField(_l("From"), render_kw=_TYPED)
    end = StringField(_l("To"), render_kw=_TYPED)


class WallForm(Form):
    corner = RadioField(
        choices=[
            Choice("inside", _l("At an inside corner: it turns towards the roof")),
            Choice("outside", _l("At an outside corner: it turns away from the roof")),
        ],
        validate_choice=False,
    )
    length = StringField(_l("Length"), render_kw=_TYPED)
    height = StringField(_l("Height, roof to top"), render_kw=_TYPED)
    cant = StringField(_l("Leg of the cant"), render_kw=_TYPED)
    lap_width = StringField(_l("Width of field laps"), render_kw=_TYPED)
    field_laps = TextAreaField(
        _l("Where laps of the field start"), render_kw={**_TYPED, "rows": 2, "spellcheck": "false"}
    )
    behind = FieldList(FormField(StretchForm), min_entries=1, max_entries=MOST_BEHIND)
    told = StringField(_l("What the papers say it is made of"), render_kw=_TYPED)


class JobForm(FlaskForm):
    name = StringField(_l("What the crew calls it"), render_kw=_TYPED)
    walls = FieldList(FormField(WallForm), min_entries=1, max_entries=MOST_WALLS)
    start = StringField(_l("On the roof from"), render_kw={**_TYPED, "inputmode": "numeric"})
    leave_by = StringField(_l("Off the roof by"), render_kw={**_TYPED, "inputmode": "numeric"})

    def change(self, what: str) -> None:
        """One wall or one stretch more or less; everything that was typed stays."""
        if what == "next wall" and len(self.walls) < MOST_WALLS:
            self.walls.append_entry(self._like_the_last())
        elif what == "last wall" and len(self.walls) > 1:
            self.walls.pop_entry()
        elif what.startswith("stretch ") and what.removeprefix("stretch ") in self._numbers():
            behind = self.walls[int(what.removeprefix("stretch "))].behind
            if len(behind) < MOST_BEHIND:
                behind.append_entry()

    def _like_the_last(self) -> dict[str, Any]:
        last = self.walls[-1].data
        return {name: last[name] for name in _AS_BEFORE}

    def _numbers(self) -> list[str]:
        return [str(i) for i in range(len(self.walls))]


@dataclass(frozen=True)
class Beside:
    """A problem with the id of its field, and what that field is called."""

    id: str
    label: str
    text: str


def put_beside(form: JobForm, problems: Sequence[Problem]) -> list[Beside]:
    """Put each problem beside its field; all of them, to be listed at the top of the page."""
    return [_put(form, problem) for problem in problems]


def _put(form: JobForm, problem: Problem) -> Beside:
    field: Any = form
    for step in problem.path:
        field = field[step]
    if not isinstance(field, FormField):
        field.errors = [*field.errors, problem.text]
    return Beside(field.id, _label(problem.path, field), problem.text)


def _label(path: Sequence[str | int], field: Any) -> str:
    """What the field is called, on a page on which every wall has one of that name."""
    if path[0] != "walls":
        return str(field.label.text)
    i = int(path[1])
    wall = _("Wall %(id)s", id=wall_letter(i))
    if path[-1] == "corner":
        return _("Corner %(left)s–%(right)s", left=wall_letter(i), right=wall_letter(i + 1))
    if isinstance(field, FormField):
        return wall
    called = str(field.label.text)
    return f"{wall}: {_('what burns, %(end)s', end=called) if 'behind' in path else called}"
