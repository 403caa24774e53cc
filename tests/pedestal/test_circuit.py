"""The circuit of make-believe pedestals against other solvers and against itself."""

from __future__ import annotations

from itertools import combinations

import networkx as nx
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shorewalk.pedestal.circuit import EARTH, LOW_IMPEDANCE_OHMS, METER_OHMS, Circuit, Element

from .table import GOOD, SEEN_BY_NONE, STOPS, Case, cases

OHMS = st.floats(0.01, 1000)
NODES = [EARTH, "a", "b", "c", "d"]


@given(
    st.lists(OHMS, min_size=4, max_size=4),
    st.dictionaries(st.sampled_from(list(combinations(NODES, 2))), OHMS, max_size=6),
)
@settings(max_examples=100, deadline=None)
def test_a_network_of_resistances_agrees_with_its_resistance_distance(
    chain: list[float], more: dict[tuple[str, str], float]
) -> None:
    """What stands behind two probes is the effective resistance between them (networkx: by the graph's Laplacian)."""
    edges = [*zip(NODES, NODES[1:], chain, strict=False), *((a, b, ohms) for (a, b), ohms in more.items())]
    graph: nx.MultiGraph[str] = nx.MultiGraph()
    for a, b, ohms in edges:
        graph.add_edge(a, b, ohms=ohms)
    circuit = Circuit({str(at): Element(a, b, ohms) for at, (a, b, ohms) in enumerate(edges)})
    for one, other in combinations(NODES, 2):
        wanted = nx.resistance_distance(graph, one, other, weight="ohms", invert_weight=True)
        assert isinstance(wanted, float)
        fed = circuit.put("source", Element(other, one, wanted, volts=10.0)).solve()
        assert fed.amps("source")[0] == pytest.approx(10.0 / (2 * wanted), rel=1e-4)
        assert fed.read(one, other)[0] == pytest.approx(5.0, rel=1e-3)


@pytest.mark.parametrize("case", cases([*STOPS, *SEEN_BY_NONE, *GOOD]), ids=str)
def test_every_fault_reads_as_another_solver_reads_it(case: Case) -> None:
    """Between all slots and to earth, with both kinds of meter: within 0.1 % or 1 mV of the solver in this folder."""
    other = case.fault.world(case.outlet).circuit
    solved = Circuit(
        {name: Element(e.a, e.b, e.ohms, e.farads, e.volts) for name, e in other.elements.items()}
    ).solve()
    slots = [node for node in solved.at if node.split(".")[0] in ("50", "30", "20") and node.count(".") == 1]
    for one, two in combinations([*slots, "peg", EARTH], 2):
        for meter in (METER_OHMS, LOW_IMPEDANCE_OHMS):
            wanted = other.read(one, two, meter)
            assert solved.read(one, two, meter)[0] == pytest.approx(wanted, rel=1e-3, abs=1e-3)


def test_variants_are_solved_as_each_alone_would_be() -> None:
    """One value that varies gives one reading a variant, also where it opens the circuit."""
    base = Circuit(
        {
            "source": Element(EARTH, "hot", 0.01, volts=120.0),
            "contact": Element("hot", "slot", 0.1),
            "load": Element("slot", EARTH, 9.6),
        }
    )
    ohms = np.array([0.1, 2.0, np.inf])
    together = base.change("contact", ohms=ohms).solve().read("slot")
    alone = [base.change("contact", ohms=each).solve().read("slot")[0] for each in ohms]
    assert together == pytest.approx(alone)
    assert together[0] > together[1] > together[2]
    assert together[2] == pytest.approx(0.0, abs=1e-6)


def test_an_edit_leaves_the_circuit_before_it_as_it_was() -> None:
    """Opening and swapping give other circuits; a name stands once."""
    base = Circuit(
        {
            "source": Element(EARTH, "hot", 0.01, volts=120.0),
            "a": Element("hot", "slot", 0.1),
            "b": Element(EARTH, "other", 0.1),
        }
    )
    assert base.swap("a", "b").solve().read("other")[0] == pytest.approx(120.0, rel=1e-3)
    assert base.open("a").solve().read("slot")[0] == pytest.approx(0.0, abs=0.2)
    assert base.solve().read("slot")[0] == pytest.approx(120.0, rel=1e-3)
    with pytest.raises(KeyError):
        base.put("a", Element("hot", EARTH, 1.0))
