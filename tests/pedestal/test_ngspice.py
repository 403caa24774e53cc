"""The circuit of every fault against ngspice, a general-purpose circuit simulator that Debian packages."""

from __future__ import annotations

import cmath
import math
import re
import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from pathlib import Path
from random import Random

import numpy as np
import pytest

from shorewalk.pedestal.circuit import EARTH, INSULATION, LOW_IMPEDANCE_OHMS, METER_OHMS, Circuit
from shorewalk.pedestal.faults import park_with, shipped_faults, stand_with
from shorewalk.pedestal.park import OUTLETS, Park
from shorewalk.pedestal.stand import Stand, Switched

FAULTS = shipped_faults()
ABSENT = 1e15
Pair = tuple[str, str]

pytestmark = pytest.mark.skipif(
    shutil.which("ngspice") is None, reason="ngspice is not installed (Debian: apt install ngspice)"
)


def pairs(park: Park, cord: str | None = None) -> list[Pair]:
    """Every two slots of an outlet, and each slot against the peg and the earth; with the cord in, ours instead."""
    if cord:
        busbars = [f"panel.{slot}" for slot in OUTLETS[cord] if slot.startswith("L")]
        ends = [*busbars, "inlet.N", "inlet.G", "skin", "peg", EARTH]
        return [*combinations(ends, 2)][:-1]
    slots = {name: [f"{name}.{slot}" for slot in OUTLETS[name]] for name in park.outlets}
    within = [pair for each in slots.values() for pair in combinations(each, 2)]
    return within + [(slot, end) for each in slots.values() for slot in each for end in ("peg", EARTH)]


def netlist(circuit: Circuit, probed: list[Pair]) -> str:
    """The same circuit in ngspice's words, with a meter at each pair that is put in one at a time."""
    nodes = sorted({end for e in circuit.elements.values() for end in (e.a, e.b)} - {EARTH})
    at = {EARTH: "0"} | {name: f"n{number}" for number, name in enumerate(nodes)}
    lines = ["a make-believe pedestal", *(f"Ri{at[name]} {at[name]} 0 {1 / INSULATION:g}" for name in nodes)]
    for number, e in enumerate(circuit.elements.values()):
        assert np.ndim(e.ohms) == 0, "one variant"
        a, b = at[e.a], at[e.b]
        if e.volts:
            size, angle = cmath.polar(complex(e.volts))
            lines.append(f"V{number} s{number} {a} AC {size:.12g} {math.degrees(angle):.12g}")
            a = f"s{number}"
        ohms = complex(e.ohms)
        if math.isfinite(abs(ohms)):
            lines.append(f"R{number} {a} {b} {ohms.real:.12g}")
        if e.farads:
            lines.append(f"C{number} {a} {b} {e.farads:.12g}")
    for number, (one, other) in enumerate(probed):
        lines.append(f"Rm{number} {at[one]} {at[other]} {ABSENT:g}")
    lines += [".control", "set numdgt=9"]
    for number, (one, other) in enumerate(probed):
        across = f"v({at[one]})" + ("" if other == EARTH else f"-v({at[other]})")
        for ohms in (METER_OHMS, LOW_IMPEDANCE_OHMS):
            lines += [
                f"alter Rm{number} = {ohms:g}",
                "ac lin 1 60 60",
                f"let shown = abs({across})",
                "print shown",
            ]
        lines.append(f"alter Rm{number} = {ABSENT:g}")
    return "\n".join([*lines, ".endc", ".end", ""])


def simulated(circuit: Circuit, probed: list[Pair], folder: Path) -> list[float]:
    file = folder / "pedestal.cir"
    file.write_text(netlist(circuit, probed), encoding="utf-8")
    ran = subprocess.run(
        ["ngspice", "-b", str(file)], capture_output=True, text=True, timeout=120, check=False
    )
    return [float(found) for found in re.findall(r"^shown = (\S+)", ran.stdout, re.MULTILINE)]


def stands() -> Iterator[tuple[str, Stand]]:
    """Each fault at each outlet, in a loop of usual values, and what is switched on there."""
    for fault in FAULTS.values():
        for outlet in fault.outlets:
            chance = Random(f"{fault.id} {outlet}")  # noqa: S311 - no secret
            yield f"{fault.id}-{outlet}", stand_with(fault, park_with(fault, outlet, chance), outlet, chance)


STANDS = dict(stands())
AT_THE_PEDESTAL = {
    "off": Switched(),
    "idle": Switched(breaker=True),
    "loaded": Switched(breaker=True, load="pedestal-20", load_on=True),
}
IN_THE_RIG = {
    "plugged": Switched(breaker=True, main=True, branches="test-only"),
    "loaded in the rig": Switched(breaker=True, main=True, branches="test-only", load="rig", load_on=True),
    "in use": Switched(breaker=True, main=True, branches="on"),
}
CASES = [
    (name, state)
    for name in STANDS
    for state in ([*AT_THE_PEDESTAL, "loaded in the rig"] if FAULTS[name[:-3]].side == "park" else IN_THE_RIG)
]
"""A fault of ours leaves the empty slots as they are."""


@pytest.mark.parametrize(("name", "state"), CASES)
def test_every_reading_of_every_fault_is_as_ngspice_has_it(name: str, state: str, tmp_path: Path) -> None:
    """Every probe pair, either meter, at the slots and through our own plug: within 0.1 % or 1 mV."""
    stand = STANDS[name]
    cord = name[-2:] if state in IN_THE_RIG else None
    stand.switched = replace({**AT_THE_PEDESTAL, **IN_THE_RIG}[state], cord=cord)
    solved, probed = stand.solve(), pairs(stand.park, cord)
    wanted = simulated(solved.circuit, probed, tmp_path)
    ours = [
        float(solved.read(*pair, ohms)[0]) for pair in probed for ohms in (METER_OHMS, LOW_IMPEDANCE_OHMS)
    ]
    assert len(wanted) == len(ours)
    assert ours == pytest.approx(wanted, rel=1e-3, abs=1e-3)


def test_a_rig_on_its_cord_reads_as_ngspice_has_it(tmp_path: Path) -> None:
    """Through our own plug with one load on: busbars, metal and peg."""
    stand = STANDS["neutral-contact-burnt-50"]
    stand.switched = Switched(
        breaker=True, cord="50", main=True, branches="test-only", load="rig", load_on=True
    )
    solved = stand.solve()
    probed = [("panel.L1", "inlet.N"), ("panel.L2", "inlet.N"), ("inlet.N", "inlet.G"), ("inlet.G", "peg")]
    wanted = simulated(solved.circuit, probed, tmp_path)
    ours = [
        float(solved.read(*pair, ohms)[0]) for pair in probed for ohms in (METER_OHMS, LOW_IMPEDANCE_OHMS)
    ]
    assert ours == pytest.approx(wanted, rel=1e-3, abs=1e-3)
    assert abs(ours[0] - ours[2]) > 10, "the loose neutral shows: the legs part"
