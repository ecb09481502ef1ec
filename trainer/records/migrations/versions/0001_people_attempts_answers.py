"""People, accounts, attempts and answers."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

_MOMENT = sa.DateTime(timezone=True)


def upgrade() -> None:
    _people()
    _accounts()
    _work()


def downgrade() -> None:
    for table in (
        "answers",
        "attempts",
        "lesson_readings",
        "attempt_sets",
        "sign_in_failures",
        "sessions",
        "accounts",
        "site_rules",
        "role_grants",
        "memberships",
        "sites",
        "people",
        "crews",
    ):
        op.drop_table(table)


def _people() -> None:
    op.create_table(
        "crews",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("public_id", sa.String(length=32), nullable=False),
        sa.Column("name", sa.String(length=120), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_crews"),
        sa.UniqueConstraint("name", name="uq_crews_name"),
        sa.UniqueConstraint("public_id", name="uq_crews_public_id"),
    )
    op.create_table(
        "people",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("public_id", sa.String(length=32), nullable=False),
        sa.Column("name", sa.String(length=120), nullable=False),
        sa.Column("language", sa.String(length=16), nullable=True),
        sa.Column("length_unit", sa.String(length=2), nullable=False),
        sa.Column("temperature_unit", sa.String(length=1), nullable=False),
        sa.Column("ground", sa.String(length=5), nullable=False),
        sa.Column("created_at", _MOMENT, nullable=False),
        sa.CheckConstraint("ground IN ('auto', 'light', 'dark')", name=op.f("ck_people_ground")),
        sa.CheckConstraint("length_unit IN ('mm', 'in')", name=op.f("ck_people_length_unit")),
        sa.CheckConstraint(
            "temperature_unit IN ('c', 'f')", name=op.f("ck_people_temperature_unit")
        ),
        sa.PrimaryKeyConstraint("id", name="pk_people"),
        sa.UniqueConstraint("public_id", name="uq_people_public_id"),
    )
    op.create_index("ix_people_name", "people", ["name"])
    op.create_table(
        "sites",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=120), nullable=False),
        sa.Column("time_zone", sa.String(length=64), nullable=False),
        sa.Column("profile", sa.String(length=64), nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_sites"),
    )
    op.create_table(
        "memberships",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("crew_id", sa.Integer(), nullable=False),
        sa.Column("leads", sa.Boolean(), nullable=False),
        sa.Column("starts_at", _MOMENT, nullable=False),
        sa.Column("ends_at", _MOMENT, nullable=True),
        sa.CheckConstraint("ends_at > starts_at", name=op.f("ck_memberships_period")),
        sa.ForeignKeyConstraint(["crew_id"], ["crews.id"], name="fk_memberships_crew_id"),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name="fk_memberships_person_id"),
        sa.PrimaryKeyConstraint("id", name="pk_memberships"),
    )
    op.create_index(
        "ix_memberships_crew_id_person_id_starts_at_ends_at_leads",
        "memberships",
        ["crew_id", "person_id", "starts_at", "ends_at", "leads"],
    )
    op.create_index(
        "ix_memberships_person_id_crew_id_starts_at_ends_at_leads",
        "memberships",
        ["person_id", "crew_id", "starts_at", "ends_at", "leads"],
    )
    op.create_table(
        "role_grants",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("role", sa.String(length=16), nullable=False),
        sa.Column("starts_at", _MOMENT, nullable=False),
        sa.Column("ends_at", _MOMENT, nullable=True),
        sa.CheckConstraint(
            "role IN ('worker', 'supervisor', 'coordinator', 'auditor', 'administrator')",
            name=op.f("ck_role_grants_role"),
        ),
        sa.CheckConstraint("ends_at > starts_at", name=op.f("ck_role_grants_period")),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name="fk_role_grants_person_id"),
        sa.PrimaryKeyConstraint("id", name="pk_role_grants"),
    )
    op.create_index(
        "ix_role_grants_person_id_role_starts_at_ends_at",
        "role_grants",
        ["person_id", "role", "starts_at", "ends_at"],
    )
    op.create_table(
        "site_rules",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("subject", sa.String(length=80), nullable=False),
        sa.Column("value", sa.Double(), nullable=True),
        sa.Column("unit", sa.String(length=16), nullable=False),
        sa.Column("reason", sa.String(length=500), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("set_at", _MOMENT, nullable=False),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name="fk_site_rules_person_id"),
        sa.PrimaryKeyConstraint("id", name="pk_site_rules"),
    )
    op.create_index("ix_site_rules_subject_set_at", "site_rules", ["subject", "set_at"])


def _accounts() -> None:
    op.create_table(
        "accounts",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("sign_in_name", sa.String(length=64), nullable=False),
        sa.Column("password_hash", sa.String(length=200), nullable=False),
        sa.Column("password_set_at", _MOMENT, nullable=False),
        sa.Column("must_change_password", sa.Boolean(), nullable=False),
        sa.Column("demo", sa.Boolean(), nullable=False),
        sa.Column("created_at", _MOMENT, nullable=False),
        sa.Column("disabled_at", _MOMENT, nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name="fk_accounts_person_id"),
        sa.PrimaryKeyConstraint("id", name="pk_accounts"),
        sa.UniqueConstraint("person_id", name="uq_accounts_person_id"),
        sa.UniqueConstraint("sign_in_name", name="uq_accounts_sign_in_name"),
    )
    op.create_table(
        "sessions",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("token_digest", sa.String(length=64), nullable=False),
        sa.Column("account_id", sa.Integer(), nullable=False),
        sa.Column("created_at", _MOMENT, nullable=False),
        sa.Column("last_seen_at", _MOMENT, nullable=False),
        sa.Column("expires_at", _MOMENT, nullable=False),
        sa.Column("ended_at", _MOMENT, nullable=True),
        sa.ForeignKeyConstraint(["account_id"], ["accounts.id"], name="fk_sessions_account_id"),
        sa.PrimaryKeyConstraint("id", name="pk_sessions"),
        sa.UniqueConstraint("token_digest", name="uq_sessions_token_digest"),
    )
    op.create_index("ix_sessions_account_id", "sessions", ["account_id"])
    op.create_index("ix_sessions_expires_at", "sessions", ["expires_at"])
    op.create_table(
        "sign_in_failures",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name_digest", sa.String(length=64), nullable=False),
        sa.Column("account_id", sa.Integer(), nullable=True),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("last_at", _MOMENT, nullable=False),
        sa.Column("locked_until", _MOMENT, nullable=True),
        sa.ForeignKeyConstraint(
            ["account_id"], ["accounts.id"], name="fk_sign_in_failures_account_id"
        ),
        sa.PrimaryKeyConstraint("id", name="pk_sign_in_failures"),
        sa.UniqueConstraint("name_digest", name="uq_sign_in_failures_name_digest"),
    )
    op.create_index("ix_sign_in_failures_last_at", "sign_in_failures", ["last_at"])


def _work() -> None:
    op.create_table(
        "attempt_sets",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("public_id", sa.String(length=32), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("unit", sa.String(length=64), nullable=False),
        sa.Column("forms", sa.Text(), nullable=False),
        sa.Column("opened_at", _MOMENT, nullable=False),
        sa.Column("closed_at", _MOMENT, nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name="fk_attempt_sets_person_id"),
        sa.PrimaryKeyConstraint("id", name="pk_attempt_sets"),
        sa.UniqueConstraint("public_id", name="uq_attempt_sets_public_id"),
    )
    op.create_index(
        "ix_attempt_sets_person_id_unit_opened_at",
        "attempt_sets",
        ["person_id", "unit", "opened_at"],
    )
    op.create_table(
        "lesson_readings",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("unit", sa.String(length=64), nullable=False),
        sa.Column("lesson_version", sa.String(length=32), nullable=False),
        sa.Column("read_at", _MOMENT, nullable=False),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name="fk_lesson_readings_person_id"),
        sa.PrimaryKeyConstraint("id", name="pk_lesson_readings"),
    )
    op.create_index(
        "ix_lesson_readings_person_id_unit_read_at_lesson_version",
        "lesson_readings",
        ["person_id", "unit", "read_at", "lesson_version"],
    )
    op.create_table(
        "attempts",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("public_id", sa.String(length=32), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("set_id", sa.Integer(), nullable=True),
        sa.Column("purpose", sa.String(length=16), nullable=False),
        sa.Column("unit", sa.String(length=64), nullable=False),
        sa.Column("family", sa.String(length=64), nullable=False),
        sa.Column("family_version", sa.Integer(), nullable=False),
        sa.Column("rulebook_version", sa.String(length=32), nullable=False),
        sa.Column("profile", sa.String(length=64), nullable=False),
        sa.Column("pack_digest", sa.String(length=64), nullable=False),
        sa.Column("engine_version", sa.Integer(), nullable=False),
        sa.Column("seed", sa.BigInteger(), nullable=False),
        sa.Column("mode", sa.String(length=64), nullable=False),
        sa.Column("margin", sa.Double(), nullable=True),
        sa.Column("facts", sa.Text(), nullable=False),
        sa.Column("opened_at", _MOMENT, nullable=False),
        sa.Column("closed_at", _MOMENT, nullable=True),
        sa.CheckConstraint(
            "purpose IN ('learn', 'practise', 'prove-practice')", name=op.f("ck_attempts_purpose")
        ),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name="fk_attempts_person_id"),
        sa.ForeignKeyConstraint(["set_id"], ["attempt_sets.id"], name="fk_attempts_set_id"),
        sa.PrimaryKeyConstraint("id", name="pk_attempts"),
        sa.UniqueConstraint("public_id", name="uq_attempts_public_id"),
    )
    op.create_index(
        "ix_attempts_latest", "attempts", ["person_id", "unit", "opened_at", "family", "purpose"]
    )
    op.create_index("ix_attempts_person_id_opened_at", "attempts", ["person_id", "opened_at"])
    op.create_index("ix_attempts_set_id", "attempts", ["set_id"])
    op.create_table(
        "answers",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=64), nullable=False),
        sa.Column("attempt_id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("unit", sa.String(length=64), nullable=False),
        sa.Column("family", sa.String(length=64), nullable=False),
        sa.Column("decision", sa.String(length=64), nullable=False),
        sa.Column("response", sa.Text(), nullable=False),
        sa.Column("right", sa.Boolean(), nullable=False),
        sa.Column("critical", sa.Boolean(), nullable=False),
        sa.Column("score", sa.Double(), nullable=False),
        sa.Column("misconception", sa.String(length=80), nullable=True),
        sa.Column("mark", sa.Text(), nullable=False),
        sa.Column("server_at", _MOMENT, nullable=False),
        sa.Column("phone_at", _MOMENT, nullable=True),
        sa.Column("language", sa.String(length=16), nullable=False),
        sa.Column("length_unit", sa.String(length=2), nullable=False),
        sa.Column("temperature_unit", sa.String(length=1), nullable=False),
        sa.CheckConstraint("length_unit IN ('mm', 'in')", name=op.f("ck_answers_length_unit")),
        sa.ForeignKeyConstraint(["attempt_id"], ["attempts.id"], name="fk_answers_attempt_id"),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name="fk_answers_person_id"),
        sa.PrimaryKeyConstraint("id", name="pk_answers"),
        sa.UniqueConstraint("attempt_id", "decision", name="uq_answers_attempt_id_decision"),
        sa.UniqueConstraint("key", name="uq_answers_key"),
    )
    op.create_index(
        "ix_answers_latest",
        "answers",
        ["person_id", "unit", "server_at", "family", "right", "critical", "score", "misconception"],
    )
