"""Primer batches against a second reading of the rules that shares nothing with the first.

It walks through the day minute by minute with a brush and teams that have a state, and knows no
formula for any time; the largest batch is found by trying every number of sheets. All given values
are such that everything happens on a whole minute.
"""

from dataclasses import dataclass, field

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from trainer.roofing.primer_batch import MOST_SHEETS, Batch, Break, batch_times, largest_batch

MOST_TRIED = 12
LONGEST_DAY = 4000


@dataclass
class Day:
    """One batch of ``sheets``. A tenth of a metre is primed in ``per_tenth`` working minutes."""

    batch: Batch
    sheets: int
    minute: int = 0
    brushed: int = 0
    begun: dict[int, int] = field(default_factory=dict)
    primed: dict[int, int] = field(default_factory=dict)
    started: dict[int, int] = field(default_factory=dict)
    down: dict[int, int] = field(default_factory=dict)
    teams: list[list[int]] = field(default_factory=list)

    def __post_init__(self):
        per_tenth = int(self.batch.prime_min_per_m / 10)
        self.edges = {}
        for sheet in range(self.sheets):
            left = sheet * (self.batch.sheet_mm - self.batch.side_lap_mm)
            self.edges[sheet] = (
                left // 100 * per_tenth,
                (left + self.batch.sheet_mm) // 100 * per_tenth,
            )
        self.to_brush = self.edges[self.sheets - 1][1]
        self.teams = []

    def resting(self):
        pause = self.batch.pause
        return pause and pause.at_min <= self.minute < pause.at_min + pause.minutes

    def may_start(self, sheet):
        if sheet not in self.primed or self.minute < self.primed[sheet] + self.batch.dry_min:
            return False
        if self.batch.same_crew and self.brushed < self.to_brush:
            return False
        return len(self.teams) < self.batch.teams

    def send_teams(self):
        while len(self.started) < self.sheets and self.may_start(len(self.started)):
            self.teams.append([len(self.started), self.batch.minutes_per_sheet])
            self.started[len(self.started)] = self.minute

    def brush(self):
        if self.brushed == self.to_brush:
            return
        for sheet, (left, _) in self.edges.items():
            if left == self.brushed:
                self.begun[sheet] = self.minute
        self.brushed += 1
        for sheet, (_, right) in self.edges.items():
            if right == self.brushed:
                self.primed[sheet] = self.minute + 1

    def lay(self):
        for team in list(self.teams):
            team[1] -= 1
            if team[1] == 0:
                self.down[team[0]] = self.minute + 1
                self.teams.remove(team)

    def run(self):
        """Start, done and slack of every sheet."""
        while len(self.down) < self.sheets and self.minute < LONGEST_DAY:
            if not self.resting():
                self.send_teams()
                self.brush()
                self.lay()
            self.minute += 1
        return [
            (self.started[k], self.down[k], self.begun[k] + self.batch.latest_min - self.down[k])
            for k in range(self.sheets)
        ]


breaks = st.builds(Break, at_min=st.integers(0, 90), minutes=st.integers(0, 40))
batches = st.builds(
    Batch,
    dry_min=st.integers(0, 40),
    latest_min=st.integers(0, 150),
    prime_min_per_m=st.sampled_from([10, 20, 30]),
    minutes_per_sheet=st.integers(1, 25),
    teams=st.integers(1, 4),
    same_crew=st.booleans(),
    sheet_mm=st.sampled_from([200, 400, 1000]),
    side_lap_mm=st.sampled_from([0, 100]),
    pause=st.none() | breaks,
)


def timeline(batch, sheets):
    return [(t.start_min, t.done_min, t.slack_min) for t in batch_times(batch, sheets)]


@settings(max_examples=400)
@given(batches, st.integers(1, MOST_TRIED))
def test_every_time_is_the_one_that_walking_through_the_day_gives(batch, sheets):
    assert timeline(batch, sheets) == Day(batch, sheets).run()


@settings(max_examples=400)
@given(batches)
def test_largest_batch_is_the_one_that_trying_every_number_finds(batch):
    in_time = [
        all(slack >= 0 for *_, slack in Day(batch, n).run()) for n in range(1, MOST_TRIED + 1)
    ]
    tried = max((n for n, good in enumerate(in_time, start=1) if good), default=0)
    found = len(largest_batch(batch))
    assert found == tried or (tried == MOST_TRIED and found > tried)


@given(batches)
def test_one_sheet_more_would_be_late_and_none_of_these_is(batch):
    found = largest_batch(batch)
    assert all(times.slack_min >= 0 for times in found)
    assume(len(found) < MOST_SHEETS)
    assert min(times.slack_min for times in batch_times(batch, len(found) + 1)) < 0


@given(batches, st.integers(2, 40))
def test_a_batch_in_time_stays_in_time_when_it_is_cut_short(batch, sheets):
    """What finding the largest by halving rests on."""
    longer, shorter = batch_times(batch, sheets), batch_times(batch, sheets - 1)
    for before, after in zip(shorter, longer, strict=False):
        assert before.slack_min >= after.slack_min


def changed(batch, **changes):
    return Batch(**{**vars(batch), **changes})


@given(batches, st.integers(1, 30))
def test_more_time_or_more_teams_never_shorten_a_batch(batch, more):
    found = len(largest_batch(batch))
    assert len(largest_batch(changed(batch, latest_min=batch.latest_min + more))) >= found
    assert len(largest_batch(changed(batch, teams=batch.teams + more))) >= found
    assert len(largest_batch(changed(batch, dry_min=batch.dry_min + more))) <= found
    assert len(largest_batch(changed(batch, same_crew=False))) >= found


@given(batches, st.sampled_from([0.1, 0.3, 2, 7]))
def test_stretching_every_duration_stretches_every_time(batch, factor):
    """Tenths of a minute are as exact as whole ones."""
    pause = batch.pause and Break(
        _tenths(batch.pause.at_min, factor), _tenths(batch.pause.minutes, factor)
    )
    names = ("dry_min", "latest_min", "prime_min_per_m", "minutes_per_sheet")
    stretched = changed(
        batch, pause=pause, **{name: _tenths(getattr(batch, name), factor) for name in names}
    )
    assert [float(t.done_min) for t in largest_batch(stretched)] == [
        _tenths(t.done_min, factor) for t in largest_batch(batch)
    ]


def _tenths(minutes, factor):
    """The product as a person would write it."""
    return round(float(minutes) * factor, 1)
