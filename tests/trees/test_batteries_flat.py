"""The batteries go flat: one to keep away from, a charger without power, a dead one, then what a battery holds."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import Jump
from shorewalk.walk.answers import Answer, Cannot, Choose, Read, Unable, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]
LIVES = {"charger.now": Read("13.8")}


def battery(kind: str = "flooded", rest: str | None = None, **given: Answer) -> dict[str, Answer]:
    """Return the answers with a charger that has power; `rest` the volts after a night and a rest."""
    answers: dict[str, Answer] = {
        "looks": Choose("sound"),
        "wall": Choose("all"),
        "switch": Choose("on"),
        "kind": Choose(kind),
        "rested": Choose("yes" if rest else "no"),
        "breaker": Choose("on"),
        "gauge": Choose("none"),
    }
    if rest:
        answers["rested_volts"] = Read(rest, confirmed=True)
    return answers | {at.replace("__", "."): answer for at, answer in given.items()}


def charger(now: str, rest: str, charging: str) -> dict[str, Answer]:
    """Return the readings with the charger on, off, and on again."""
    texts = {"now": now, "rest": rest, "charging": charging}
    return {f"charger.{at}": Read(text, confirmed=True) for at, text in texts.items()}


@pytest.mark.parametrize("smells", [Choose("rotten-eggs"), Unsure()])
def test_a_smell_of_rotten_eggs_is_gas_and_sends_nobody_to_a_switch(go: Go, smells: Answer) -> None:
    """It is asked first, and whoever smells it goes out: the walk ends there, with the emergency services called."""
    walk = go("batteries-flat", battery(gas=smells))
    end = ending(walk)
    assert [answer.at for answer in walk.answers] == ["gas"]
    assert (end.at, end.verdict, end.first) == ("gas_leaks", "emergency", "emergency-services")
    for words in ("everybody out", "Touch no switch", "no flame", "no phone inside", "only if it is outside"):
        assert words in end.safe_action


@pytest.mark.parametrize(
    ("given", "at", "verdict"),
    [
        (battery(looks=Choose("swollen")), "stay_away", "unplug-now"),
        (battery(looks=Choose("hot")), "stay_away", "unplug-now"),
        (battery(looks=Unsure()), "stay_away", "unplug-now"),
        (battery(switch=Choose("off"), switch_on=Cannot()), "cut_off", "leave-as-is"),
        (battery(breaker=Choose("tripped")), "charger_trips", "leave-as-is"),
        (battery(breaker=Choose("off"), breaker_on=Cannot()), "charger_trips", "leave-as-is"),
        (battery(charger__now=Unable()), "unread", "leave-as-is"),
        (battery(tenths=Choose("no")), "unread", "leave-as-is"),
        # the charger lives from 13.5 V, or where the battery rises by 0.3 V within a minute (common practice)
        (battery() | charger("12.4", "12.2", "12.6"), "charge_first", "leave-as-is"),
        (battery() | charger("12.4", "12.3", "13.5"), "charge_first", "leave-as-is"),
        (battery() | charger("12.1", "12.1", "12.1"), "charger_dead", "leave-as-is"),
        (battery() | charger("12.1", "12.1", "12.3"), "charger_dead", "leave-as-is"),
        # 14.4 to 14.8 V is charging, over 15 V is too much (makers' tables)
        (battery(charger__now=Read("14.6")), "charge_first", "leave-as-is"),
        (battery(charger__now=Read("15.4")), "overcharged", "leave-as-is"),
        (battery(charger__now=Read("15.4"), too_much=Cannot()), "stay_away", "unplug-now"),
        (battery(charger__now=Read("9.8", confirmed=True)), "next_to_nothing", "leave-as-is"),
        # next to nothing is most often the wrong dial: read twice
        (battery() | charger("0.3", "0.3", "0.3"), "next_to_nothing", "leave-as-is"),
        (battery() | charger("12.4", "0.3", "12.6"), "unread", "leave-as-is"),
        (battery() | charger("12.4", "12.2", "0.3"), "unread", "leave-as-is"),
        (battery(rest="0.3") | charger("12.4", "12.2", "12.6"), "charge_first", "leave-as-is"),
        (battery(charger__now=Read("26.4", confirmed=True)), "not_12", "leave-as-is"),
    ],
)
def test_the_battery_then_its_charger(go: Go, given: dict[str, Answer], at: str, verdict: str) -> None:
    """The battery side is the electrician's; a battery that bulges or is hot ends it before any reading."""
    end = ending(go("batteries-flat", given))
    assert (end.at, end.verdict, end.call, end.lowered) == (at, verdict, "electrician", ())


@pytest.mark.parametrize(
    ("kind", "rest", "at"),
    [  # rested, flooded 12.6 full, 12.2 half, 11.6 empty (makers' tables, which differ by 0.1 V); AGM rests higher
        ("flooded", "12.70", "something_draws"),
        ("flooded", "12.25", "cannot_tell"),
        ("flooded", "11.80", "holds_nothing"),
        ("flooded", "10.20", "holds_nothing"),
        ("agm", "12.80", "something_draws"),
        ("agm", "12.30", "cannot_tell"),
        ("agm", "11.90", "holds_nothing"),
        ("flooded", "13.20", "cannot_tell"),  # over 13 V lead is not at rest (common practice)
        # 12.9 to 13.3 V over most of the charge of LiFePO4 (found): only its ends tell (sellers' charts)
        ("lithium", "13.20", "lithium_untold"),
        ("lithium", "12.95", "lithium_untold"),
        ("lithium", "13.70", "something_draws"),
        ("lithium", "12.10", "lithium_empty"),
    ],
)
def test_what_a_rested_battery_tells(go: Go, kind: str, rest: str, at: str) -> None:
    """By its kind, with the meter's error and that of the tables; in the middle the voltage cannot tell."""
    given = battery(kind, rest) | LIVES
    assert ending(go("batteries-flat", given, meter="good")).at == at


def test_a_worse_meter_tells_less(go: Go) -> None:
    """12.55 V flooded is over half for certain with 0.8 % + 3 counts, and open with 3 % + 10."""
    given = battery("flooded", "12.55") | LIVES
    assert ending(go("batteries-flat", given, meter="good")).at == "something_draws"
    assert ending(go("batteries-flat", given, meter="3%+10")).at == "cannot_tell"


def test_a_dead_charger_outweighs_what_the_battery_holds(go: Go) -> None:
    """Where the charger gives nothing, a low battery is no proof against the battery."""
    given = battery("flooded", "11.80") | charger("11.9", "11.8", "11.8")
    assert ending(go("batteries-flat", given)).at == "charger_dead"


@pytest.mark.parametrize("which", ["some", "none"])
def test_without_wall_power_it_is_another_symptom(go: Go, library: Library, which: str) -> None:
    """A charger without supply is no fault of the charger: the walk goes on with the power."""
    walk = go("batteries-flat", battery(wall=Choose(which)), until="no-power")
    assert walk.now.tree == "no-power"
    assert isinstance(library.tree("batteries-flat").nodes["no_power"], Jump)


@pytest.mark.parametrize("looks", ["smokes"])
def test_smoke_is_an_emergency(go: Go, looks: str) -> None:
    """Nobody reads or switches anything at a battery that smokes."""
    walk = go("batteries-flat", battery(looks=Choose(looks)))
    assert [answer.at for answer in walk.answers] == ["gas", "looks"]
    assert ending(walk).first == "emergency-services"
