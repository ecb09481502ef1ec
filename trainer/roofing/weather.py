"""What the air does to a surface and to people: dew point, wind chill, heat index.

Temperatures in degrees Celsius, relative humidity in percent, wind in km/h.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.roofing.contract import Calculator, Field, Number, exact

_MAGNUS_A = 17.62
_MAGNUS_B_C = 243.12


def dew_point_c(air_c: float, rh_pct: float) -> float:
    """The temperature at which air of ``air_c`` and ``rh_pct`` begins to leave water on a surface.

    Valid for −45 to 60 °C and 0 < RH ≤ 100. Magnus formula over liquid water, constants of the WMO
    Guide to Instruments and Methods of Observation (WMO-No. 8), Annex 4.B. Below 0 °C the frost
    point lies higher (up to 2.1 °C at 0 °C and 20 %), so that frost forms before this says dew.
    """
    if rh_pct == 100:  # saturated: exactly the air, where logarithms would miss it by a hair
        return air_c
    gamma = math.log(rh_pct) - math.log(100) + _MAGNUS_A * air_c / (_MAGNUS_B_C + air_c)
    return _MAGNUS_B_C * gamma / (_MAGNUS_A - gamma)


@dataclass(frozen=True)
class Spread:
    """How far a surface lies above the dew point, and whether that is enough."""

    spread_k: Fraction
    required_k: float
    ok: bool


def surface_spread(surface_c: float, dew_point_c: float, required_k: float) -> Spread:
    """Judges a surface against the dew point: spread in kelvin, enough when ≥ ``required_k``."""
    spread = exact(surface_c) - exact(dew_point_c)
    return Spread(spread, required_k, spread >= exact(required_k))


def wind_chill_c(air_c: float, wind_kmh: float) -> float:
    """What calm-air temperature cools bare skin as this wind (at 10 m height) does, in °C.

    Valid for −60 to 10 °C and 4.8 to 150 km/h. Joint index of the weather services of the United
    States and Canada, 2001.
    """
    v: float = wind_kmh**0.16
    return 13.12 + 0.6215 * air_c - 11.37 * v + 0.3965 * air_c * v


def heat_index_c(air_c: float, rh_pct: float) -> float:
    """How hot the air feels in shade and light wind, in °C. Full sun can add up to 8 °C.

    Valid for 10 to 50 °C and 0 to 100 % RH. US National Weather Service: a simple formula below
    80 °F, above it the regression of Technical Attachment SR 90-23 (1990) with its two adjustments.
    """
    air_f = air_c * 9 / 5 + 32
    simple = 0.5 * (air_f + 61 + 1.2 * (air_f - 68) + 0.094 * rh_pct)
    if simple < 80:
        return _celsius(simple)
    regression = heat_index_regression_f(air_f, rh_pct)
    return _celsius(regression + _heat_index_adjustment_f(air_f, rh_pct))


def _celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) * 5 / 9


def heat_index_regression_f(t: float, r: float) -> float:
    """The bare regression of SR 90-23, °F from °F and %, which the printed charts show.

    Valid where the simple formula gives 80 °F or more.
    """
    return (
        -42.379
        + 2.04901523 * t
        + 10.14333127 * r
        - 0.22475541 * t * r
        - 0.00683783 * t * t
        - 0.05481717 * r * r
        + 0.00122874 * t * t * r
        + 0.00085282 * t * r * r
        - 0.00000199 * t * t * r * r
    )


def _heat_index_adjustment_f(t: float, r: float) -> float:
    if r < 13 and 80 <= t <= 112:
        return -((13 - r) / 4) * math.sqrt((17 - abs(t - 95)) / 17)
    if r > 85 and 80 <= t <= 87:
        return ((r - 85) / 10) * ((87 - t) / 5)
    return 0.0


def _compute_dew_point(given: dict[str, Any]) -> dict[str, Any]:
    dew = dew_point_c(given["air_c"], given["rh_pct"])
    results: dict[str, Any] = {"dew_point_c": dew}
    if given["surface_c"] is not None:
        results |= vars(surface_spread(given["surface_c"], dew, given["required_k"]))
    if dew < 0:
        results["note"] = "frost possible"
    return results


DEW_POINT = Calculator(
    name="dew-point",
    summary="dew point of the air, and whether a surface lies far enough above it",
    fields=(
        Field("air_c", Number("°C", low=-45, high=60), "air temperature"),
        Field("rh_pct", Number("%", above=0, high=100), "relative humidity"),
        Field(
            "surface_c",
            Number("°C", low=-60, high=100),
            "temperature of the surface to be primed or covered",
            optional=True,
        ),
        Field(
            "required_k",
            Number("K", low=0),
            "least spread of the surface above the dew point",
            default_rule="surface-above-dew-point",
            only_with="surface_c",
        ),
    ),
    results={
        "dew_point_c": "dew point, °C",
        "spread_k": "surface temperature less dew point, K (with a surface)",
        "required_k": "the spread it was judged by, K (with a surface)",
        "ok": "whether the spread is at least what is required (with a surface)",
        "note": '"frost possible", only with a dew point below 0 °C',
    },
    sources=(
        "Magnus formula over water, 17.62 and 243.12 °C: WMO-No. 8, Annex 4.B",
        "Spread of 3 K: practice for coatings after ISO 8502-4 and ISO 12944-7 (secondary source),"
        " carried over to primer and self-adhesive sheets; no roofing code",
    ),
    rules=(
        "A spread of exactly what is required is enough.",
        "The product's own data sheet may ask for more.",
    ),
    compute=_compute_dew_point,
)

WIND_CHILL = Calculator(
    name="wind-chill",
    summary="how cold the wind makes bare skin",
    fields=(
        Field("air_c", Number("°C", low=-60, high=10), "air temperature"),
        Field("wind_kmh", Number("km/h", low=4.8, high=150), "wind speed at 10 m height"),
    ),
    results={"wind_chill_c": "wind chill, °C"},
    sources=("Wind chill index of the United States and Canada, 2001",),
    compute=lambda given: {"wind_chill_c": wind_chill_c(**given)},
)

HEAT_INDEX = Calculator(
    name="heat-index",
    summary="how hot humid air feels in the shade",
    fields=(
        Field("air_c", Number("°C", low=10, high=50), "air temperature in the shade"),
        Field("rh_pct", Number("%", low=0, high=100), "relative humidity"),
    ),
    results={"heat_index_c": "heat index, °C, in shade and light wind"},
    sources=(
        "US National Weather Service, Technical Attachment SR 90-23 (1990), with the adjustments"
        " and the simple formula of the Weather Prediction Center's heat index page",
    ),
    rules=("Full sun can add up to 8 °C (15 °F).",),
    compute=lambda given: {"heat_index_c": heat_index_c(**given)},
)
