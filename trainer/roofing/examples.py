"""One example call of every calculator: what its help shows, and what the tests run.

Only inputs stand here; the answer beside an example is always worked out.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

EXAMPLES: Mapping[str, Mapping[str, Any]] = {
    "dew-point": {"air_c": 12, "rh_pct": 88, "surface_c": 12.5, "required_k": 3},
    "wind-chill": {"air_c": -5, "wind_kmh": 40},
    "heat-index": {"air_c": 32, "rh_pct": 60},
    "primer": {
        "applied_at": "07:10",
        "now": "09:25",
        "dry_min": 45,
        "plan_min": 120,
        "latest_min": 180,
        "touch": "dry",
        "touch_required": "dry",
        "events": [],
    },
    "primer-batch": {
        "dry_min": 45,
        "latest_min": 180,
        "prime_min_per_m": 2,
        "minutes_per_sheet": 12,
        "teams": 1,
        "same_crew": True,
        "sheet_mm": 1000,
        "side_lap_mm": 75,
        "girth_mm": 900,
        "coverage_m2_per_l": 3.3,
        "break": {"at_min": 90, "minutes": 30},
    },
    "cut-length": {
        "height_mm": 450,
        "cant_mm": 100,
        "top_mm": 200,
        "field_lap_mm": 100,
        "outer_drop_mm": 50,
    },
    "sheets": {
        "wall_mm": 6400,
        "sheet_mm": 1000,
        "side_lap_mm": 75,
        "min_sheet_mm": 300,
        "field_laps": [[950, 1050], [1950, 2050]],
        "clear_mm": 100,
    },
    "stagger": {
        "field_laps": [[950, 1050], [1950, 2050]],
        "flashing_laps": [[1100, 1175], [2200, 2275]],
        "clear_mm": 100,
    },
    "lap": {"measured_mm": [78, 74, 60], "required_mm": 75, "uncertainty_mm": 2},
    "drift": {"lap_top_mm": 85, "down_mm": 900, "drift_mm_per_m": 15, "required_mm": 75},
    "corner": {
        "kind": "outside",
        "angle_deg": 270,
        "field_lap_mm": 100,
        "height_mm": 450,
        "top_mm": 200,
        "cover_mm": 75,
        "trimmed": True,
        "overcut_mm": 10,
    },
    "clearance": {
        "flame": [1500, 400],
        "unclosed": [[[0, 0], [900, 0]], [3000, 0]],
        "limit_mm": 1000,
        "combustible": False,
        "cylinders": [[6000, 3000]],
        "cylinder_limit_mm": 3000,
    },
    "fire-watch": {
        "last_flame": ["14:20", "15:10"],
        "rules": [
            {"name": "general industry", "watch_min": 30},
            {"name": "site permit", "watch_min": 60, "monitor_min": 180},
        ],
    },
    "takeoff": {
        "walls": [12400, 8200],
        "girth_mm": 900,
        "sheet_mm": 1000,
        "side_lap_mm": 75,
        "roll_mm": 10000,
        "inside_corners": 2,
        "outside_corners": 1,
        "sheets_per_corner": 2,
        "gussets_per_corner": 2,
        "coverage_m2_per_l": 3.3,
    },
    "substrate": {
        "layers": [
            {"name": "upstand", "material": "concrete"},
            {"name": "nailer", "material": "timber"},
        ],
        "openings": ["vent behind the cant"],
    },
    "sequence": {
        "job": "wall",
        "done": ["substrate gate", "prime", "touch-test"],
        "next": "light the torch",
    },
}
