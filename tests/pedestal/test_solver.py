"""The solver against circuits that are worked by hand."""

from __future__ import annotations

import math

import pytest

from .solver import METER_OHMS, OMEGA, Circuit


def supply(volts: complex = 120.0) -> Circuit:
    circuit = Circuit()
    circuit.add("source", "earth", "hot", 0.01, volts=volts)
    return circuit


def test_a_divider_divides() -> None:
    """Two resistances in series share the voltage; the current is one."""
    circuit = supply()
    circuit.add("upper", "hot", "mid", 14.39)
    circuit.add("lower", "mid", "earth", 28.8)
    assert circuit.read("mid", "earth") == pytest.approx(120 * 28.8 / 43.2, abs=1e-3)
    assert (
        circuit.amps("upper") == pytest.approx(circuit.amps("lower")) == pytest.approx(120 / 43.2, abs=1e-4)
    )


def test_the_meter_loads_what_it_reads() -> None:
    """Through 10 megohm more, a 10 megohm meter shows half."""
    circuit = supply()
    circuit.add("path", "hot", "far", METER_OHMS)
    assert circuit.read("far", "earth") == pytest.approx(60, rel=0.01)
    assert circuit.read("far", "earth", meter_ohms=3000) == pytest.approx(0, abs=0.1), "low impedance"


def test_a_floating_wire_shows_a_ghost() -> None:
    """60 pF to a hot and 60 pF to ground: half the voltage behind 1/(omega 120 pF), then the meter's load."""
    circuit = supply()
    circuit.add("to_hot", "hot", "wire", farads=60e-12)
    circuit.add("to_ground", "wire", "earth", farads=60e-12)
    behind = 1 / (OMEGA * 120e-12)
    assert circuit.read("wire", "earth") == pytest.approx(60 / math.hypot(1, behind / METER_OHMS), rel=0.02)


def test_sources_have_a_phase() -> None:
    """Two of 120 V at 180 degrees give 240 between them; at 120 degrees 207.8."""
    for phase, across in ((-1.0, 240.0), (-0.5 + 0.8660254j, 207.85)):
        circuit = supply()
        circuit.add("other", "earth", "leg", 0.01, volts=120 * phase)
        assert circuit.read("hot", "leg") == pytest.approx(across, abs=0.01)


def test_a_swap_and_an_open_are_edits_of_one_element() -> None:
    """A copy edited leaves the first as it was."""
    circuit = supply()
    circuit.add("a", "hot", "slot", 0.1)
    circuit.add("b", "earth", "other", 0.1)
    reversed_ = circuit.copy()
    reversed_.swap("a", "b")
    assert reversed_.read("other", "earth") == pytest.approx(120, abs=1e-3)
    assert circuit.read("slot", "earth") == pytest.approx(120, abs=1e-3)
    circuit.open("a")
    assert circuit.read("slot", "earth") < 0.2
