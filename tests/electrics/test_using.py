"""What a tree may work out."""

from __future__ import annotations

import math

import pytest

from shorewalk.electrics.using import FUNCTIONS
from shorewalk.tree.library import shipped
from shorewalk.tree.model import Work
from shorewalk.walk.interval import of_function, of_reading
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.reading import Reading

READINGS = {"unloaded": 121.0, "loaded": 119.0, "amps": 12.5, "volts": 12.4}


@pytest.mark.parametrize("name", sorted(FUNCTIONS))
def test_every_function_takes_its_arguments_by_name_and_gives_a_number(name: str) -> None:
    """As a work node calls it."""
    formula = FUNCTIONS[name]
    value = formula.fn(**{arg: READINGS.get(arg, 120.0 + index) for index, arg in enumerate(formula.args)})
    assert math.isfinite(value)
    assert formula.unit in ("V", "%", "ohm", "1", "A")
    assert formula.says


def test_every_work_of_a_shipped_tree_uses_a_function_here_with_all_its_arguments() -> None:
    """No name is misspelt, no argument missing or too many."""
    library = shipped()
    works = [
        node
        for name in library.names()
        for node in library.tree(name).nodes.values()
        if isinstance(node, Work)
    ]
    assert works
    for node in works:
        assert node.using in FUNCTIONS, node.name
        assert {arg for arg, _ in node.inputs} == set(FUNCTIONS[node.using].args), node.name


def amounts(meter: str, **volts: float) -> dict[str, object]:
    made = parse_meter(meter)
    return {k: of_reading(k, Reading("", v, v, v, "V"), made, "ac-volts") for k, v in volts.items()}


@pytest.mark.parametrize("meter", ["basic,tenths", "good,tenths", "basic,whole"])
def test_a_sound_supply_is_split_phase_for_any_meter(meter: str) -> None:
    """121.7, 121.4, 243.0 V: the whole interval of the cosine is under that of 150 degrees (-0.866)."""
    inputs = amounts(meter, hot1=121.7, hot2=121.4, hot_hot=243.0)
    cosine = of_function(lambda known: FUNCTIONS["leg_cosine"].fn(**known), inputs, "1")  # type: ignore[arg-type]
    assert cosine.span[1] < -0.866


def test_equal_legs_differ_by_what_two_counts_make() -> None:
    """Readings of one meter share the gain: two of 121 V may differ by 0.2 V and 1.2 % of that, not 3.9 V."""
    inputs = amounts("basic,tenths", hot1=121.0, hot2=121.0)
    apart = of_function(lambda known: FUNCTIONS["leg_difference"].fn(**known), inputs, "V")  # type: ignore[arg-type]
    assert apart.span == pytest.approx((0.0, 0.2 * 1.012))
