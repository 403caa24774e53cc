"""How functions read on paper: the numbers put in are a sum that comes to the function's result."""

from __future__ import annotations

import math
import re
from inspect import getdoc, getmembers, isfunction, signature

import pytest

from shorewalk.electrics import conductors, cord, loads, park, people, sag, split
from shorewalk.electrics.battery import CHEMISTRIES
from shorewalk.electrics.conductors import METALS
from shorewalk.electrics.formula import ARGUMENT, plain_number
from shorewalk.electrics.formulas import FORMULAS
from shorewalk.electrics.using import FUNCTIONS

VALUES = {
    "a": 120.4, "b": 121.9, "c": 241.1,
    "unloaded": 121.8, "loaded": 112.4, "amps": 11.7,
    "hot1": 121.7, "hot2": 121.4, "hot_hot": 210.0, "hot_earth": 121.0,
    "hot_ground": 121.4, "hot_neutral": 122.0, "neutral_ground": 0.4,
    "rise_unloaded": 121.8, "rise_loaded": 124.8, "fall_unloaded": 121.6, "fall_loaded": 116.0,
    "ng_unloaded": 0.1, "ng_loaded": 0.7, "ln_unloaded": 122.0, "ln_loaded": 119.5,
    "rig_unloaded": 122.0, "rig_loaded": 118.0, "outlet_unloaded": 122.1, "outlet_loaded": 121.0,
    "other_unloaded": 121.8, "other_loaded": 129.3, "neutral_ohms": 0.35, "degrees": 120.0,
    "gauge": 10.0, "mm2": 2.5, "celsius": 60.0, "lay": 1.02, "feet": 40.0, "per_1000_ft": 1.24,
    "own_amps": 30.0, "other_amps": 12.0, "volts_lost": 3.7, "volts": 118.0,
    "ohms": 0.4, "expected": 0.1, "own_ohms": 9.6, "other_ohms": 48.0, "amps1": 40.0, "amps2": 20.0,
    "watts": 1500.0, "rating": 30.0, "sites": 18.0, "va": 54_000.0,
    "sites_50": 6.0, "sites_30": 12.0, "sites_20": 1.0, "va_50": 12_000.0,
}  # fmt: skip
BY_WORDS = {
    # Not a plain sum: told in words, and held by vectors elsewhere
    "class_5_per_1000_ft": "table for", "demand_percent": "table for", "demand_va": "demand factor",
    "load_amps": "fed with", "load_watts": "fed with",
    **{f"{name}_{what}_at_least": f"table for {name}" for name in CHEMISTRIES for what in ("charge", "used")},
}  # fmt: skip


@pytest.mark.parametrize("name", sorted(FORMULAS))
def test_a_formula_names_its_arguments_and_no_other(name: str) -> None:
    """What is put in is what the function takes; what has a default may stay out."""
    formula = FORMULAS[name]
    named = set(ARGUMENT.findall(formula.template))
    needed = {
        key
        for key, parameter in signature(formula.fn).parameters.items()
        if parameter.default is parameter.empty
    }
    assert needed <= named <= set(formula.args)


@pytest.mark.parametrize("name", sorted(FORMULAS))
def test_words_have_no_marks_of_the_template(name: str) -> None:
    """Words leave braces and units out; with the numbers in, no name of an argument is left."""
    formula = FORMULAS[name]
    assert not set("{}[]") & set(formula.says)
    numbers = formula.put_in(VALUES)
    assert not set("{}[]") & set(numbers)
    assert "_" not in numbers


def evaluated(sum_: str) -> float:
    """Return what a sum as it is shown comes to, units left out."""
    text = sum_.rpartition(" = ")[2].replace("^", "**").replace(" x ", " * ").replace("pi/4", "pi / 4")
    text = re.sub(r"\b(?:V|A|ft|ohm|mm2|mm|m|K|W|VA|sites|of the neutral)\b", "", text)
    text = re.sub(r"\|([^|]*)\|", r"abs(\1)", text)
    text = re.sub(r"cos (\d+)", r"cos(\1)", text)
    text = re.sub(r"largest of (\([^)]*\))\s+- sum of the other two", r"excess\1", text)
    rho, a = METALS["copper"]
    known = {
        "abs": abs,
        "sqrt": math.sqrt,
        "pi": math.pi,
        "rho": rho,
        "a": a,
        "cos": lambda degrees: math.cos(math.radians(degrees)),
        "arccos": lambda cosine: math.degrees(math.acos(cosine)),
        "excess": lambda *three: 2 * max(three) - sum(three),
    }
    return float(eval(text, {"__builtins__": {}}, known))  # noqa: S307 (our own templates)


@pytest.mark.parametrize("name", sorted(set(FORMULAS) - set(BY_WORDS)))
def test_the_sum_as_shown_comes_to_the_result(name: str) -> None:
    """Somebody who types the shown sum into a calculator gets the shown number."""
    formula = FORMULAS[name]
    values = {arg: VALUES[arg] for arg in ARGUMENT.findall(formula.template)}
    factor = 1000 if formula.unit == "mA" else 1
    assert evaluated(formula.put_in(values)) * factor == pytest.approx(formula.fn(**values), rel=1e-6)


@pytest.mark.parametrize(("name", "words"), sorted(BY_WORDS.items()))
def test_what_is_no_plain_sum_says_so(name: str, words: str) -> None:
    """A table or a way of drawing current is named."""
    assert words in FORMULAS[name].put_in(VALUES)


def test_a_line_as_a_person_reads_it() -> None:
    """The load test, in words and with its numbers."""
    formula = FUNCTIONS["sag_resistance"]
    assert formula.says == "(V unloaded - V loaded) / amps"
    assert formula.put_in({"unloaded": 121.8, "loaded": 112.4, "amps": 11.7}) == "(121.8 - 112.4) V / 11.7 A"


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (121.80000000001, "121.8"),
        (0.062, "0.062"),
        (38400.0, "38400"),
        (0.0, "0"),
        (math.inf, "endless"),
        (-0.5, "-0.5"),
    ],
)
def test_numbers_are_written_as_one_would(value: float, shown: str) -> None:
    """No row of nines, no exponent."""
    assert plain_number(value) == shown


NO_SUM = {"warmed", "loose_neutral_legs", "supply_kind", "effect_of"}
"""Parts of others, and words for a number."""


def test_every_function_stands_among_the_formulas_with_what_it_says() -> None:
    """No function without a formula; each says its unit, range or error and source in its docstring."""
    listed = {getattr(formula.fn, "func", formula.fn) for formula in FORMULAS.values()}
    for module in (conductors, cord, loads, park, people, sag, split):
        for name, function in getmembers(module, isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_") and name not in NO_SUM:
                assert function in listed, f"{module.__name__}.{name}"
                assert getdoc(function)
    assert set(FUNCTIONS) <= set(FORMULAS)
