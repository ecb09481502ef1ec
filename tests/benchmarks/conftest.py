"""Benchmarks run only when asked for; their figures are printed and recorded, never judged."""

import pytest
from site_at_work import site_at_work


@pytest.fixture(scope="module")
def at_work(request, tmp_path_factory):
    """A site on a real server, and the floor beside it."""
    if not request.config.getoption("--benchmark-enable"):
        pytest.skip("benchmarks are switched on with --benchmark-enable")
    yield from site_at_work(tmp_path_factory.mktemp("site"))


@pytest.fixture
def report(request):
    """report(name=figure, …): print the figures and keep them with the run."""
    if not request.config.getoption("--benchmark-enable"):
        pytest.skip("benchmarks are switched on with --benchmark-enable")
    benchmark = request.getfixturevalue("benchmark")

    def figures(**named: float) -> None:
        benchmark.extra_info.update(named)
        benchmark.pedantic(lambda: None)
        print(" ", ", ".join(f"{name} {value:.3g}" for name, value in named.items()))

    return figures
