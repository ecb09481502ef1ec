"""Step graphs against networkx: acyclic, direct needs only, in valid order, missing = ancestors."""

import random

import networkx as nx
import pytest

from trainer.roofing.sequence import JOBS, check, is_valid_order, needs_of, steps, violations


def drawn(job):
    graph = nx.DiGraph()
    for step in steps(job):
        graph.add_node(step["name"])
        graph.add_edges_from((need, step["name"]) for need in step["needs"])
    return graph


@pytest.mark.parametrize("job", JOBS)
def test_needs_are_direct_ones_only(job):
    graph = drawn(job)
    assert nx.is_directed_acyclic_graph(graph)
    assert set(nx.transitive_reduction(graph).edges) == set(graph.edges)


@pytest.mark.parametrize("job", JOBS)
def test_steps_are_listed_in_a_topological_order(job):
    names = [step["name"] for step in steps(job)]
    place = {name: i for i, name in enumerate(names)}
    assert len(place) == len(names) == len(drawn(job))  # each once, and no need that is no step
    assert all(place[need] < place[step] for need, step in drawn(job).edges)


@pytest.mark.parametrize("job", JOBS)
def test_everything_leads_to_the_last_step(job):
    graph = drawn(job)
    last = "put cylinder away" if job == "gas shut-down" else "close permit"
    assert [name for name in graph if not graph.out_degree(name)] == [last]


@pytest.mark.parametrize("job", JOBS)
def test_missing_is_the_ancestors_that_are_not_done(job):
    graph = drawn(job)
    guards = {step["name"]: step["guards"] for step in steps(job)}
    rng = random.Random(job)
    for _ in range(500):
        done = rng.sample(list(graph), rng.randrange(len(graph)))
        next_step = rng.choice([name for name in graph if name not in done])
        missing = nx.ancestors(graph, next_step) - set(done)
        found = check(job, done, next_step)
        assert set(found.missing) == missing
        assert list(found.missing) == [name for name in guards if name in missing]
        assert found.allowed == (not missing)
        fire = any(guards[name] == "fire" for name in {next_step, *missing})
        assert found.critical == (bool(missing) and fire)


@pytest.mark.parametrize("job", JOBS)
def test_all_needs_are_the_ancestors(job):
    graph = drawn(job)
    assert needs_of(job) == {name: nx.ancestors(graph, name) for name in graph}


@pytest.mark.parametrize("job", JOBS)
def test_every_topological_order_is_right(job):
    graph = drawn(job)
    orders = list(nx.all_topological_sorts(graph))
    assert (len(orders) > 1) == (job != "gas shut-down")  # gas has one right order alone
    for order in orders[:2000]:
        assert is_valid_order(job, order)


@pytest.mark.parametrize("job", JOBS)
def test_any_few_steps_are_judged_by_the_reduction_of_the_closure_between_them(job):
    closure = nx.transitive_closure(drawn(job))
    rng = random.Random(job)
    for _ in range(200):
        few = rng.sample(list(closure), rng.randrange(2, 7))
        needed = set(nx.transitive_reduction(closure.subgraph(few)).edges)
        wrong = {(a, b) for a, b in needed if few.index(a) > few.index(b)}
        assert {(v.need, v.step) for v in violations(job, few, few)} == wrong
