"""Whether something comes up more often than chance, or than may be."""

from __future__ import annotations

from math import exp, lgamma, log

SURE = 0.01
"""A family is named where a share this high would come by chance in one of a hundred samples."""


def at_least(found: int, of: int, share: float) -> float:
    """The chance of ``found`` or more among ``of`` (0 or more) where each has the chance ``share``.

    The upper tail of the binomial distribution. Where the chances differ and ``share`` is their
    mean, it is an upper bound above the mean (W. Hoeffding, Annals of Mathematical Statistics 27
    (1956) 713–721).
    """
    if found <= 0 or share >= 1:
        return 1.0
    if share <= 0:
        return 0.0
    return min(1.0, sum(_exactly(k, of, share) for k in range(found, of + 1)))


def surely_above(found: int, of: int, share: float, doubt: float = SURE) -> bool:
    """Whether ``found`` of ``of`` can hardly come of a chance of ``share`` or less."""
    return at_least(found, of, share) < doubt


def _exactly(k: int, n: int, share: float) -> float:
    ways = lgamma(n + 1) - lgamma(k + 1) - lgamma(n - k + 1)
    return exp(ways + k * log(share) + (n - k) * log(1 - share))
