"""Values of a job, each allowed by itself, that do not fit together: named, with the field."""

import pytest

from tests.unit.installation.small_jobs import plain_job
from trainer.errors import InputError
from trainer.installation.read_decision import read_decision
from trainer.installation.read_job import read_job

AIR = {"air_c": 20, "rh_pct": 50}
BEHIND = {"id": "nail", "what": "timber nailer"}
FOOT = {"at": "08:00", "kind": "footprints", "wall": "A", "from_mm": 100, "to_mm": 200}
EXT = {"id": "ext1", "wall": "A", "at_mm": 1400, "off_mm": 4000}
BAD = [
    ({"wall": {"field_laps": [[500, 400]]}}, "walls[0].field_laps[0]", "the left end first"),
    ({"wall": {"field_laps": [[2800, 2900]]}}, "walls[0].field_laps[0]", "on the wall, < 2800"),
    (
        {"wall": {"behind": [{**BEHIND, "from_mm": 900, "to_mm": 900}]}},
        "walls[0].behind[0]",
        "the left end first",
    ),
    (
        {"wall": {"damp": [{"from_mm": 3000, "to_mm": 3100, "dry_at": "09:00"}]}},
        "walls[0].damp[0]",
        "on the wall, < 2800",
    ),
    ({"wall": {"sun": [["12:00", "09:00"]]}}, "walls[0].sun", "the earlier time first"),
    ({"weather": {"rain": [["09:00", "09:00"]]}}, "weather.rain", "the earlier time first"),
    (
        {"weather": {"path": [{"at": "09:00", **AIR}, {"at": "08:00", **AIR}]}},
        "weather.path[1].at",
        "later than 09:00",
    ),
    ({"happenings": [{**FOOT, "wall": "Z"}]}, "happenings[0].wall", "one of A"),
    ({"happenings": [{**FOOT, "to_mm": 100}]}, "happenings[0]", "the left end first"),
    ({"lunch": {"from_at": "12:00", "by": "11:00", "minutes": 30}}, "lunch.by", "≥ 12:00"),
    ({"extinguishers": [EXT, EXT]}, "extinguishers", "each id once"),
]


@pytest.mark.parametrize(("changes", "field", "allowed"), BAD)
def test_what_does_not_fit_is_named(changes, field, allowed):
    with pytest.raises(InputError) as refused:
        read_job(plain_job(**changes))
    assert (refused.value.field, refused.value.allowed) == (field, allowed)


@pytest.mark.parametrize("decision", [None, [], "wait", 1, ["do", "wait"]])
def test_a_decision_is_a_block_of_fields(decision):
    with pytest.raises(InputError) as refused:
        read_decision(read_job(plain_job()), decision)
    assert refused.value.field == "decision"


def test_what_only_the_alarm_brings_is_not_offered():
    with pytest.raises(InputError) as refused:
        read_decision(read_job(plain_job()), {"do": "fly"})
    assert "all-clear" not in refused.value.allowed and "alarm" in refused.value.allowed
