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
from trainer.records.tables.installations import (
    INSTALLATION_PURPOSES,
    JOB_SOURCES,
    Installation,
    InstallationDecision,
    SiteJob,
)
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
    "INSTALLATION_PURPOSES",
    "JOB_SOURCES",
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
    "Installation",
    "InstallationDecision",
    "LessonReading",
    "Membership",
    "Person",
    "RoleGrant",
    "SignInFailure",
    "SignedInSession",
    "Site",
    "SiteJob",
    "SiteRule",
    "canonical",
    "new_public_id",
]
