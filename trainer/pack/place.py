"""Where the pack lies: inside an installed package, else at the top of the checkout."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parents[1]
_PACKAGED = _PACKAGE / "scenarios"
SCENARIOS = _PACKAGED if _PACKAGED.is_dir() else _PACKAGE.parent / "scenarios"
