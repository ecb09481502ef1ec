"""Which SQLite may use its write-ahead log.

Source: SQLite's page "Write-Ahead Logging": the corruption of 3.7.0 to 3.51.2 is mended in
3.51.3 and, in their branches, in 3.50.7 and 3.44.6 (read second hand).
"""

import pytest

from trainer.records.sqlite import log_is_sound


@pytest.mark.parametrize(
    "version", [(3, 51, 3), (3, 52, 0), (3, 53, 4), (4, 0, 0), (3, 50, 7), (3, 50, 9), (3, 44, 6)]
)
def test_mended(version):
    assert log_is_sound(version)


@pytest.mark.parametrize(
    "version",
    [(3, 7, 0), (3, 40, 1), (3, 44, 5), (3, 45, 9), (3, 49, 2), (3, 50, 6), (3, 51, 0), (3, 51, 2)],
)
def test_not_mended(version):
    assert not log_is_sound(version)
