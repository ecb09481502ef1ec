"""docs/simulated-day.md says what the simulator does."""

from __future__ import annotations

from tests.project.simulated_day_tables import PAGE, filled


def test_the_tables_are_those_of_the_program() -> None:
    page = PAGE.read_text("utf-8")
    assert filled(page) == page, "run: python -m tests.project.simulated_day_tables"
    assert "| prime | wall |" in page
