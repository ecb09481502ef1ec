"""Jobs of the site, installations and their decisions."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

_MOMENT = sa.DateTime(timezone=True)
_STANDING = sa.text("taken_back_at IS NULL")


def upgrade() -> None:
    _site_jobs()
    _installations()
    _decisions()


def downgrade() -> None:
    for table in ("installation_decisions", "installations", "site_jobs"):
        op.drop_table(table)


def _site_jobs() -> None:
    op.create_table(
        "site_jobs",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("public_id", sa.String(length=32), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("crew_id", sa.Integer(), nullable=True),
        sa.Column("name", sa.String(length=120), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("spec", sa.Text(), nullable=False),
        sa.Column("made_at", _MOMENT, nullable=False),
        sa.Column("handed_at", _MOMENT, nullable=True),
        sa.Column("withdrawn_at", _MOMENT, nullable=True),
        sa.ForeignKeyConstraint(["crew_id"], ["crews.id"], name="fk_site_jobs_crew_id"),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name="fk_site_jobs_person_id"),
        sa.PrimaryKeyConstraint("id", name="pk_site_jobs"),
        sa.UniqueConstraint("public_id", name="uq_site_jobs_public_id"),
    )
    op.create_index(
        "ix_site_jobs_crew_id_handed_at_withdrawn_at",
        "site_jobs",
        ["crew_id", "handed_at", "withdrawn_at"],
    )
    op.create_index("ix_site_jobs_person_id_made_at", "site_jobs", ["person_id", "made_at"])


def _installations() -> None:
    op.create_table(
        "installations",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("public_id", sa.String(length=32), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("purpose", sa.String(length=16), nullable=False),
        sa.Column("source", sa.String(length=8), nullable=False),
        sa.Column("job", sa.String(length=64), nullable=False),
        sa.Column("job_version", sa.Integer(), nullable=False),
        sa.Column("job_text", sa.Text(), nullable=False),
        sa.Column("seed", sa.BigInteger(), nullable=False),
        sa.Column("limits", sa.Text(), nullable=False),
        sa.Column("rulebook_version", sa.String(length=32), nullable=False),
        sa.Column("profile", sa.String(length=64), nullable=False),
        sa.Column("pack_digest", sa.String(length=64), nullable=False),
        sa.Column("simulator_version", sa.Integer(), nullable=False),
        sa.Column("opened_at", _MOMENT, nullable=False),
        sa.Column("closed_at", _MOMENT, nullable=True),
        sa.Column("outcome", sa.Text(), nullable=True),
        sa.Column("best", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "purpose IN ('practise', 'prove')", name=op.f("ck_installations_purpose")
        ),
        sa.CheckConstraint("source IN ('pack', 'site')", name=op.f("ck_installations_source")),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name="fk_installations_person_id"),
        sa.PrimaryKeyConstraint("id", name="pk_installations"),
        sa.UniqueConstraint("public_id", name="uq_installations_public_id"),
    )
    op.create_index(
        "ix_installations_person_id_job_opened_at",
        "installations",
        ["person_id", "job", "opened_at"],
    )
    op.create_index(
        "ix_installations_person_id_opened_at", "installations", ["person_id", "opened_at"]
    )


def _decisions() -> None:
    op.create_table(
        "installation_decisions",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("installation_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=64), nullable=False),
        sa.Column("decision", sa.Text(), nullable=False),
        sa.Column("state_digest", sa.String(length=64), nullable=False),
        sa.Column("server_at", _MOMENT, nullable=False),
        sa.Column("phone_at", _MOMENT, nullable=True),
        sa.Column("taken_back_at", _MOMENT, nullable=True),
        sa.Column("taken_back_key", sa.String(length=64), nullable=True),
        sa.ForeignKeyConstraint(
            ["installation_id"],
            ["installations.id"],
            name="fk_installation_decisions_installation_id",
        ),
        sa.PrimaryKeyConstraint("id", name="pk_installation_decisions"),
        sa.UniqueConstraint("key", name="uq_installation_decisions_key"),
        sa.UniqueConstraint("taken_back_key", name="uq_installation_decisions_taken_back_key"),
    )
    op.create_index(
        "ix_installation_decisions_installation_id",
        "installation_decisions",
        ["installation_id"],
    )
    op.create_index(
        "ix_installation_decisions_standing",
        "installation_decisions",
        ["installation_id", "number"],
        unique=True,
        sqlite_where=_STANDING,
        postgresql_where=_STANDING,
    )
