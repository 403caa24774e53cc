"""The circuit of make-believe pedestals against other solvers and against itself."""

from __future__ import annotations

import math
from itertools import combinations

import networkx as nx
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shorewalk.pedestal.circuit import EARTH, LOW_IMPEDANCE_OHMS, METER_OHMS, OMEGA, Circuit, Element

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
    """What stands behind two probes is the resistance distance: by the pseudoinverse of the graph's Laplacian.

    Source: D. J. Klein and M. Randic, Resistance distance (1993); the graph is networkx's, the algebra numpy's.
    """
    edges = [*zip(NODES, NODES[1:], chain, strict=False), *((a, b, ohms) for (a, b), ohms in more.items())]
    graph: nx.MultiGraph[str] = nx.MultiGraph()
    for a, b, ohms in edges:
        graph.add_edge(a, b, siemens=1 / ohms)
    between = nx.to_numpy_array(graph, nodelist=NODES, weight="siemens")
    inverse = np.linalg.pinv(np.diag(between.sum(axis=0)) - between)
    circuit = Circuit({str(at): Element(a, b, ohms) for at, (a, b, ohms) in enumerate(edges)})
    for one, other in combinations(NODES, 2):
        i, j = NODES.index(one), NODES.index(other)
        wanted = float(inverse[i, i] + inverse[j, j] - 2 * inverse[i, j])
        fed = circuit.put("source", Element(other, one, wanted, volts=10.0)).solve()
        assert fed.amps("source")[0] == pytest.approx(10.0 / (2 * wanted), rel=1e-4)
        assert fed.read(one, other)[0] == pytest.approx(5.0, rel=1e-3)


def supply(**more: Element) -> Circuit:
    return Circuit({"source": Element(EARTH, "hot", 0.01, volts=120.0), **more})


def test_a_divider_divides() -> None:
    """Two resistances in series share the voltage; the current is one."""
    solved = supply(upper=Element("hot", "mid", 14.39), lower=Element("mid", EARTH, 28.8)).solve()
    assert solved.read("mid")[0] == pytest.approx(120 * 28.8 / 43.2, abs=1e-3)
    assert solved.amps("upper")[0] == pytest.approx(120 / 43.2, abs=1e-4)
    assert solved.amps("lower")[0] == pytest.approx(120 / 43.2, abs=1e-4)


def test_the_meter_loads_what_it_reads() -> None:
    """Through 10 megohm more, a 10 megohm meter shows half; one of low impedance nothing."""
    solved = supply(path=Element("hot", "far", METER_OHMS)).solve()
    assert solved.read("far")[0] == pytest.approx(60, rel=0.01)
    assert solved.read("far", meter_ohms=LOW_IMPEDANCE_OHMS)[0] == pytest.approx(0, abs=0.1)


def test_a_floating_wire_shows_a_ghost() -> None:
    """60 pF to a hot and 60 pF to ground: half the voltage behind 1/(omega 120 pF), then the meter's load."""
    wire = {
        "to_hot": Element("hot", "wire", farads=60e-12),
        "to_ground": Element("wire", EARTH, farads=60e-12),
    }
    behind = 1 / (OMEGA * 120e-12)
    wanted = 60 / math.hypot(1, behind / METER_OHMS)
    assert supply(**wire).solve().read("wire")[0] == pytest.approx(wanted, rel=0.02)


@pytest.mark.parametrize(("phase", "across"), [(-1.0, 240.0), (complex(-0.5, 0.75**0.5), 120 * 3**0.5)])
def test_sources_have_a_phase(phase: complex, across: float) -> None:
    """Two of 120 V at 180 degrees give 240 between them; at 120 degrees 207.8."""
    other = Element(EARTH, "leg", 0.01, volts=120 * phase)
    assert supply(other=other).solve().read("hot", "leg")[0] == pytest.approx(across, abs=0.01)


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
