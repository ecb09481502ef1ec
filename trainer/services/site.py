"""The site this program serves: made ready once, asked for its name, time zone and rule profile."""

from __future__ import annotations

from dataclasses import dataclass
from zoneinfo import ZoneInfo

from trainer.records.database import Database
from trainer.records.queries import people
from trainer.records.schema import require_current
from trainer.records.tables import Site
from trainer.services.parts import Parts
from trainer.services.refusals import NotFound

__all__ = ["SiteFacts", "make_ready", "require_current", "site"]


@dataclass(frozen=True)
class SiteFacts:
    """``profile`` is None where the rule book's own default is in force."""

    name: str
    time_zone: str
    profile: str | None

    @property
    def zone(self) -> ZoneInfo:
        return ZoneInfo(self.time_zone)


def make_ready(database: Database, name: str, time_zone: str, profile: str | None = None) -> None:
    """Bring the tables up to date and add the site when there is none; keeps what is there."""
    from trainer.records import migrate  # loads Alembic, which serving a page does not need

    migrate.upgrade(database)
    with database.writing() as session:
        if people.site(session) is None:
            session.add(Site(name=name, time_zone=time_zone, profile=profile))


def site(parts: Parts) -> SiteFacts:
    """The site's name, time zone and profile. Raises NotFound before ``trainer init``."""
    with parts.database.reading() as session:
        row = people.site(session)
    if row is None:
        raise NotFound("site")
    return SiteFacts(row.name, row.time_zone, row.profile)
