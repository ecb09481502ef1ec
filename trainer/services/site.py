"""The site this program serves: made ready once, asked for its name, time zone and rule profile."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from trainer.errors import InputError
from trainer.pack.pack import load_pack
from trainer.records.database import Database
from trainer.records.queries import people
from trainer.records.schema import require_current
from trainer.records.tables import Site
from trainer.services.parts import Parts
from trainer.services.refusals import NotFound

__all__ = ["Change", "SiteFacts", "make_ready", "require_current", "set_up", "site"]

_LONGEST_NAME = 120


@dataclass(frozen=True)
class SiteFacts:
    """``profile`` is None where the rule book's own default is in force."""

    name: str
    time_zone: str
    profile: str | None

    @property
    def zone(self) -> ZoneInfo:
        return ZoneInfo(self.time_zone)


@dataclass(frozen=True)
class Change:
    """A field of SiteFacts that was changed; ``before`` is None where the default held."""

    field: str
    before: str | None
    after: str


def make_ready(database: Database, name: str, time_zone: str, profile: str | None = None) -> None:
    """Bring the tables up to date and add the site when there is none; keeps what is there.

    Raises InputError for a name, time zone or profile that a new site cannot have.
    """
    set_up(database, SiteFacts(name, time_zone, profile), {})


def set_up(database: Database, new: SiteFacts, told: Mapping[str, str]) -> tuple[Change, ...]:
    """Bring the tables up to date; add the site as ``new`` says, or change what is ``told``.

    ``told``: values by field of SiteFacts. A site that is there keeps everything else. Returns what
    was changed on it, which is nothing for a site just added. Raises InputError, before anything
    is made or changed, for an empty or overlong name, an unknown time zone or profile.
    """
    from trainer.records import migrate  # loads Alembic, which serving a page does not need

    _check(asdict(new) | dict(told))
    migrate.upgrade(database)
    with database.writing() as session:
        row = people.site(session)
        if row is None:
            session.add(Site(**asdict(new) | dict(told)))
            return ()
        return tuple(_changed(row, told))


def _changed(row: Site, told: Mapping[str, str]) -> Iterator[Change]:
    for field, value in told.items():
        before = getattr(row, field)
        if before != value:
            setattr(row, field, value)
            yield Change(field, before, value)


def _check(facts: Mapping[str, str | None]) -> None:
    """Every field as it would be stored."""
    name = facts["name"]
    if not isinstance(name, str) or not name.strip() or len(name) > _LONGEST_NAME:
        raise InputError("site_name", name, f"1 to {_LONGEST_NAME} characters")
    try:
        ZoneInfo(str(facts["time_zone"]))
    except (ZoneInfoNotFoundError, ValueError, OSError):
        allowed = 'an IANA name such as "America/Toronto"'
        raise InputError("time_zone", facts["time_zone"], allowed) from None
    if facts["profile"] is not None:
        load_pack().book.profile(facts["profile"])


def site(parts: Parts) -> SiteFacts:
    """The site's name, time zone and profile. Raises NotFound before ``trainer init``."""
    with parts.database.reading() as session:
        row = people.site(session)
    if row is None:
        raise NotFound("site")
    return SiteFacts(row.name, row.time_zone, row.profile)
