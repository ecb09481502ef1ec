"""Every table of the program, typed; ``Base.metadata`` knows them all."""

from trainer.records.tables.accounts import Account, SignedInSession, SignInFailure
from trainer.records.tables.attempts import (
    PURPOSES,
    Answer,
    Attempt,
    AttemptSet,
    LessonReading,
)
from trainer.records.tables.base import Base, canonical, new_public_id
from trainer.records.tables.people import (
    GROUNDS,
    LENGTH_UNITS,
    ROLES,
    TEMPERATURE_UNITS,
    Crew,
    Membership,
    Person,
    RoleGrant,
    Site,
    SiteRule,
)

__all__ = [
    "GROUNDS",
    "LENGTH_UNITS",
    "PURPOSES",
    "ROLES",
    "TEMPERATURE_UNITS",
    "Account",
    "Answer",
    "Attempt",
    "AttemptSet",
    "Base",
    "Crew",
    "LessonReading",
    "Membership",
    "Person",
    "RoleGrant",
    "SignInFailure",
    "SignedInSession",
    "Site",
    "SiteRule",
    "canonical",
    "new_public_id",
]
