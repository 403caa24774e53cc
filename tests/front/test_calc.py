"""`shorewalk calc`: what it lists, works out, explains, draws and refuses."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from typing import Any

import pytest

from shorewalk.calc.catalog import CALCULATIONS
from shorewalk.calc.command import run_calc
from shorewalk.exits import Exit
from shorewalk.folders import demo_data
from shorewalk.lines import cells
from shorewalk.replay import read_recorded
from shorewalk.starting import Usage
from shorewalk.tree.library import shipped
from shorewalk.tree.model import Work
from shorewalk.walk.walk import begin

Run = Callable[..., Any]
SAG = ("sag", "unloaded=121.8", "loaded=112.4", "amps=11.7", "meter=basic")
NAMES = sorted(CALCULATIONS)


def said(name: str | None, *words: str, room: int = 80, **how: bool) -> str:
    """Return what the command writes."""
    parts: list[str] = []
    assert run_calc(name, words, parts.append, room, **how) == Exit.CLEAN
    return "".join(parts)


def example(name: str) -> list[str]:
    return CALCULATIONS[name].example.split()


def told(name: str, *words: str) -> dict[str, Any]:
    """Return the results by id, from JSON."""
    data = json.loads(said(name, *words, as_json=True))
    assert data["calc"] == name
    return {result["id"]: result for result in data["results"]}


def test_the_list_names_every_calculation(run: Run) -> None:
    """`shorewalk calc` alone: each with a line of what it gives, exit 0."""
    ended = run("calc")
    assert ended.returncode == Exit.CLEAN
    assert ended.stderr == ""
    for name, calculation in CALCULATIONS.items():
        assert f"  {name}" in ended.stdout
        assert calculation.says.split(",")[0][:20] in ended.stdout


def test_a_load_test_in_one_line(run: Run) -> None:
    """The sum with its numbers, the result with its bounds, a sound cord beside it, the limits, the source."""
    ended = run("calc", *SAG)
    assert ended.returncode == Exit.CLEAN
    lines = ended.stdout.splitlines()
    assert lines[0].endswith("stop: ohms on the way")
    assert lines[1] == "  (121.8 - 112.4) V / 11.7 A = 0.80 ohm (0.76 to 0.85)"
    assert lines[2].strip() == "A sound 25 ft 10 AWG cord has 0.06 ohm."
    assert "watch under 0.55 ohm, else stop" in ended.stdout
    assert "Source: Z = (V0 - V1)/I" in ended.stdout
    assert "licensed electrician" in ended.stdout


def test_a_load_makes_no_low_supply_good() -> None:
    """112.3 V is a watch at rest, so 111.5 V with a load on is no better; from 116 V to 112 V is good."""
    low = told("sag", "unloaded=112.3", "loaded=111.5", "amps=11.7", "meter=basic")["loaded"]
    sound = told("sag", "unloaded=116.0", "loaded=112.0", "amps=11.7", "meter=basic")["loaded"]
    assert (low["grade"], sound["grade"]) == ("watch", "ok")
    assert "with a load on this is no better." in low["notes"][-1]


def test_limits_are_those_of_the_trees() -> None:
    """What is judged is judged by trees/site, with each limit's value and source."""
    limits = shipped().site.limits
    text = " ".join(said(*SAG).split())
    for name in (
        "total-share-ok",
        "total-share-stop",
        "sag-rig-ok",
        "sag-rig-stop",
        "loaded-low",
        "utilization-b-high",
    ):
        assert f"{limits[name].value:g} {limits[name].unit}" in text, name
        assert limits[name].source in text, name


@pytest.mark.parametrize("room", [40, 80])
@pytest.mark.parametrize("name", NAMES)
def test_every_example_fits_the_terminal(name: str, room: int) -> None:
    """No line is wider than the window; every page has its source and says that it is no electrician."""
    text = said(name, *example(name), room=room) + said(name, *example(name), room=room, explain=True)
    text += said(name, room=room, explain=True)
    assert max(map(cells, text.splitlines())) <= room
    flat = " ".join(text.split())
    assert "Source: " in flat
    assert "does not replace a licensed electrician" in flat
    assert not {"open the cover", "remove the cover", "bypass"} & set(flat.lower().split("."))


def test_the_list_fits_a_phone() -> None:
    """40 columns, names on lines of their own."""
    assert max(map(cells, said(None, room=40).splitlines())) <= 40


@pytest.mark.parametrize("name", NAMES)
def test_json_has_value_bounds_unit_and_formula(name: str) -> None:
    """Bounds enclose the value; what is judged has a grade a walk knows; inputs carry their own bounds."""
    data = json.loads(said(name, *example(name), as_json=True))
    assert data["results"]
    assert data["source"]
    assert "licensed electrician" in data["caution"]
    assert (data["meter"] is not None) == CALCULATIONS[name].by_meter
    for result in data["results"]:
        assert result["grade"] in (None, "ok", "watch", "stop", "danger")
        assert result["shows"]
        if "value" in result:
            assert result["low"] <= result["value"] <= result["high"]
            assert result["unit"]
    for given in data["inputs"].values():
        if isinstance(given, dict):
            assert given["low"] <= given["value"] <= given["high"]


def test_the_list_as_json() -> None:
    """Programs get each name with its inputs, units and an example."""
    listed = {each["calc"]: each for each in json.loads(said(None, as_json=True))}
    assert set(listed) == set(CALCULATIONS)
    assert {one["name"] for one in listed["sag"]["inputs"]} >= {"unloaded", "loaded", "amps"}


@pytest.mark.parametrize(
    ("walk", "at", "name", "words", "result"),
    [
        ("arrival-50-good", "leg-cosine", "legs", "hot1={hot1} hot2={hot2} hot_hot={hot_hot}", "leg-cosine"),
        ("arrival-50-good", "triangle-excess", "triangle", "a={a} b={b} c={c}", "triangle-excess"),
        ("arrival-50-three-phase", "leg-cosine", "legs", "hot1={hot1} hot2={hot2} hot_hot={hot_hot}", "leg-cosine"),
        (
            "arrival-30-good", "ground-disagreement", "ground",
            "hot_ground={hot_ground} hot_neutral={hot_neutral} neutral_ground={neutral_ground}",
            "ground-disagreement",
        ),
    ],
)  # fmt: skip
def test_walk_and_calc_say_the_same(walk: str, at: str, name: str, words: str, result: str) -> None:
    """The same readings give the same number, bounds, sum and grade as in a recorded walk."""
    recorded = read_recorded(demo_data() / "walks" / f"{walk}.yaml")
    library = shipped()
    gone = begin(library, recorded.walk, recorded.meter)
    for _, _, answer, _ in recorded.answers:
        gone = gone.answer(answer)
    now = gone.now
    worked = next(each for each in now.worked_all if each.out == at)
    node = library.tree(worked.tree).nodes.get(worked.at)
    assert isinstance(node, Work)
    values = {known.at: known.value for known in now.known}
    inputs = {
        arg: values.get(key, values.get(f"{worked.at.rpartition('.')[0]}.{key}")) for arg, key in node.inputs
    }
    meter = f"meter={now.meter.name},{'tenths' if now.meter.tenths else 'whole'}"
    found = told(name, *words.format(**inputs).split(), meter)[result]
    assert (found["value"], found["low"], found["high"]) == pytest.approx(
        (worked.value, worked.low, worked.high)
    )
    assert found["numbers"] == worked.numbers
    assert found["formula"] == worked.formula
    assert found["grade"] == worked.grade


def test_explaining_tells_each_formula_its_source_and_what_moves_it_most() -> None:
    """Without numbers what it takes; with numbers also how far each of them moves the result."""
    bare, full = said("sag", explain=True), said(*SAG, explain=True)
    for text in (bare, full):
        flat = " ".join(text.split())
        assert "(V unloaded - V loaded) / amps [ohm]" in flat
        assert "Z = (V0 - V1)/I" in flat
        assert "unloaded the voltage with the load off, 50 to 600 V (in V, mV or kV)" in flat
    assert "Moved either way by" not in bare
    for name in NAMES:
        text = said(name, explain=True)
        assert "`" not in text
        assert not {"Return", "Raise", "ValueError", "math.inf"} & set(text.split()), name
    trips = " ".join(said("ground-fault", explain=True).split())
    assert "The shortest and the longest time in s until it trips at a leak of milliamps to ground." in trips
    assert "It is refused for a negative current or one over 10 A." in trips
    moved = " ".join(full.split()).partition("Moved either way by: ")[2]
    assert moved.startswith("the gain on amps 0.0098 ohm; "), moved[:80]


@pytest.mark.parametrize(
    ("typed", "same"),
    [
        ("feet=20m", "feet=65.6168"), ("feet=20 M", "feet=65.6168"), ("feet=25'", "feet=25 ft"),
        ("temperature=167F", "temperature=75C"), ("temperature=-40F", "temperature=-40C"),
        ("gauge=#10", "gauge=10AWG"), ("gauge=awg 10", "gauge=10"), ("gauge=2,5 mm2", "gauge=2.5mm²"),
        ("amps=11700mA", "amps=11.7"), ("amps=11,7", "amps=11.7 amps"), ("volts=0.12kV+-0", "volts=120+-0"),
        ("amps=11.7±5%", "amps=11.7+-0.585"), ("amps=10-12+-0", "amps=10 to 12 A +- 0"),
    ],
)  # fmt: skip
def test_units_and_spellings(typed: str, same: str) -> None:
    """Feet or metres, AWG or mm2, F or C, a comma for a point: one number."""
    base = {"gauge": "gauge=10", "feet": "feet=25", "amps": "amps=11.7"}
    results = []
    for word in (typed, same):
        data = told("cord", *(base | {word.partition("=")[0]: word}).values())
        results.append({key: (each["value"], each["low"], each["high"]) for key, each in data.items()})
    for key, numbers in results[0].items():
        assert numbers == pytest.approx(results[1][key], rel=1e-5), key


def test_an_error_of_one_s_own_widens_the_bounds() -> None:
    """11.7 A off a label, give or take 10 %, tells less than 11.7 A off a display."""
    sharp = told(*SAG)["sag-resistance"]
    blunt = told("sag", "unloaded=121.8", "loaded=112.4", "amps=11.7+-10%")["sag-resistance"]
    assert blunt["low"] < sharp["low"] < sharp["high"] < blunt["high"]


def test_a_meter_of_whole_volts_clears_no_small_difference() -> None:
    """As in a walk: it may condemn, it cannot clear; no tenth was typed, so none is taken to be there."""
    found = told("sag", "unloaded=122", "loaded=120", "amps=12")["sag-percent-scaled"]
    assert found["grade"] is None
    assert any("whole volts" in note for note in found["notes"])
    assert told("sag", "unloaded=122", "loaded=104", "amps=12")["sag-percent-scaled"]["grade"] == "stop"
    assert told("sag", "unloaded=122.0", "loaded=120.0", "amps=12")["sag-percent-scaled"]["grade"] == "ok"


@pytest.mark.parametrize(
    ("words", "part"),
    [
        ("sg", "Nearest: sag"),
        ("sag unloaded=121.8", "needs loaded, amps too"),
        ("sag unloaded=121.8 loaded=112.4 amp=11.7", "Nearest: amps"),
        ("sag unloaded=121.8 loaded=112.4 amps=eleven", "That is no number"),
        ("sag unloaded=121.8 loaded=112.4 amps=11.7V", "'V' is no unit here: A or mA is."),
        ("sag unloaded=1218 loaded=112.4 amps=11.7", "50 to 600 V"),
        ("sag unloaded=121.8 loaded=112.4 amps=0", "more than 0 A"),
        ("sag unloaded=121.8 loaded=112.4 amps=11.7 amps=12", "given twice"),
        ("sag unloaded=121.8 loaded", "gives no name"),
        ("sag unloaded= loaded=112.4 amps=11.7", "has no value"),
        ("sag unloaded=121.8 loaded=112.4 amps=11.7 meter=cheap", "basic, good"),
        ("sag unloaded=121.8 loaded=112.4 amps=11.7 gauge=11mm2", "1.5, 2.5, 4, 6, 10, 16 mm2"),
        ("sag unloaded=121.8 loaded=112.4 amps=11.7 gauge=30", "from 18 to 4/0"),
        ("sag unloaded=121.8 loaded=112.4 amps=11.7 at=home", "one of rig, pedestal"),
        ("load leg1=spaceheater", "Nearest: space-heater"),
        ("load leg1=900W:engine", "resistive, constant-power, motor"),
        ("battery volts=24", "8 to 16 V"),
        ("battery volts=12.4 chemistry=gel", "flooded, agm, lifepo4"),
        ("breaker amps=30 rating=60", "15 to 50 A"),
        ("park", "1 to 10000 sites"),
        ("park sites30=2.5", "counted whole"),
        ("hot-or-neutral unloaded=122 loaded=110 other_unloaded=121 other_loaded=90 amps=9 system=208y", "no readings"),
        ("heat amps=30 ohms=0.05 meter=basic --plot", "has no plot. These have: sag, cord"),
        ("sag --colour", "No such option"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told_in_one_line(run: Run, words: str, part: str) -> None:
    """What was found, what is allowed, on stderr; exit 2; nothing on stdout."""
    ended = run("calc", *words.split())
    assert ended.returncode == Exit.USAGE
    assert ended.stdout == ""
    assert part in ended.stderr
    assert "Traceback" not in ended.stderr
    if "--colour" not in words:
        assert len(ended.stderr.strip().splitlines()) == 1


@pytest.mark.parametrize(
    "text", ["", " ", "=", "nan", "inf", "1e9", "--5", "5-", "+-5", "5+-", "12..", "0x10", "9" * 60]
)
@pytest.mark.parametrize("name", ["unloaded", "feet", "amps", "gauge", "meter"])
def test_nothing_typed_brings_it_down(name: str, text: str) -> None:
    """What is no number, gauge or meter gets one line, whatever it is."""
    words = {"unloaded": "121.8", "loaded": "112.4", "amps": "11.7"} | {name: text}
    typed = [f"{key}={value}" for key, value in words.items()]
    with pytest.raises(Usage) as refused:
        said("sag", *typed)
    assert "\n" not in str(refused.value)
    assert str(refused.value).endswith(".")


def test_legs_say_what_they_are_and_what_they_cannot() -> None:
    """Split phase, two legs of 208Y, one twice; a ghost or a moved neutral makes the angle lie."""
    assert "That is split phase." in said("legs", "hot1=121.7", "hot2=121.4", "hot_hot=243.0")
    assert "two legs of 208Y/120" in said("legs", "hot1=122.0", "hot2=121.0", "hot_hot=210.4")
    assert "one leg twice" in said("legs", "hot1=122.0", "hot2=122.0", "hot_hot=0.1")
    lies = said("legs", "hot1=105.0", "hot2=105.0", "hot_hot=210.0", "neutral_ground=61.0")
    assert "the angle lies" in lies
    assert "That is" not in lies
    edge = said("legs", "hot1=121.7", "hot2=121.4", "hot_hot=234.7")
    assert "It may be split phase, or an angle that no supply here should have" in " ".join(edge.split())
    assert "ghost" in said("legs", "hot1=68.0", "hot2=68.0", "hot_hot=243.0")


def test_a_loose_neutral_is_a_stop() -> None:
    """2 ohm in the neutral: the other leg rises by 21 V, and the neutral holds the ohms (nodal analysis)."""
    found = told("hot-or-neutral", *example("hot-or-neutral"))
    assert found["neutral-resistance"]["value"] == pytest.approx(2.0)
    assert found["rise-scaled"]["grade"] == found["rise-over-fall"]["grade"] == "stop"
    assert "The neutral holds most of the ohms." in found["hot-resistance"]["notes"]
    sound = told(
        "hot-or-neutral",
        *["unloaded=122.0", "loaded=120.0", "other_unloaded=121.8", "other_loaded=122.2", "amps=12.5"],
    )
    assert sound["rise-scaled"]["grade"] == "ok"
    assert sound["rise-over-fall"]["grade"] is None
    burnt = ["unloaded=122.0", "loaded=111.0", "other_unloaded=121.8", "other_loaded=122.2", "amps=12.5"]
    assert (
        "The loaded leg's hot holds most of the ohms."
        in told("hot-or-neutral", *burnt)["hot-resistance"]["notes"]
    )
    even = ["unloaded=122.0", "loaded=121.4", "other_unloaded=121.8", "other_loaded=122.1", "amps=12.5"]
    notes = told("hot-or-neutral", *even)["hot-resistance"]["notes"]
    assert notes == ["Hot and neutral cannot be told apart with these readings."]


def test_loads_are_added_leg_by_leg_at_the_measured_voltage() -> None:
    """A heater draws less and a microwave more as the voltage falls; both against 80 % and all of the breaker."""
    words = (
        "leg1=1500W,1500W:constant-power",
        "volts1=104+-0",
        "leg2=900W:motor",
        "volts2=104+-0",
        "breaker=50",
    )
    found = told("load", *words)
    assert found["leg1"]["value"] == pytest.approx(1500 / 14400 * 104 + 1500 / 104)
    assert found["leg2"]["value"] == pytest.approx(900 / 104)
    assert found["leg1-share"]["value"] == pytest.approx(2 * found["leg1"]["value"])
    assert found["neutral-current"]["value"] == pytest.approx(found["leg1"]["value"] - found["leg2"]["value"])
    even = told("load", "leg1=space-heater", "leg2=space-heater", "breaker=50")["neutral-current"]
    assert even["low"] == 0, "two heaters alike leave the neutral empty, whatever their labels"
    assert even["high"] > 1.5
    assert not any("Starting" in note for note in found["leg1"]["notes"])
    cold = told("load", "leg1=air-conditioner", "volts1=120+-0")["leg1"]["notes"]
    assert any("takes 19 to 60 A for a moment" in note for note in cold), "1.6 x 12 A to 4 x 15 A"
    over = told("load", "leg1=3x space-heater,microwave", "breaker=30")["leg1"]
    assert over["grade"] == "stop"
    assert any("hour" in note for note in over["notes"])


@pytest.mark.parametrize(
    ("volts", "chemistry", "shows"),
    [("12.40", "flooded", "%"), ("13.1", "lifepo4", "cannot tell"), ("13.6", "flooded", "cannot tell")],
)
def test_a_battery_says_when_voltage_cannot_tell(volts: str, chemistry: str, shows: str) -> None:
    """Where it can, a band of charge."""
    assert (
        shows
        in told("battery", f"volts={volts}", f"chemistry={chemistry}", "meter=0.1%+1")["charge"]["shows"]
    )


@pytest.mark.parametrize(
    ("words", "shows"),
    [
        # UL 489 and UL 943, as in tests/electrics/test_devices.py
        ("breaker amps=30+-0 rating=30", "must not trip"),
        ("breaker amps=35+-0 rating=30", "may trip, or hold for ever"),
        ("breaker amps=41+-0 rating=30", "trips within 1 h"),
        ("breaker amps=60+-0 rating=30", "trips within 2 min"),
        ("breaker amps=40-61+-0 rating=30", "may trip, or hold for ever"),
        ("ground-fault leak=3.9mA", "must not trip"),
        ("ground-fault leak=5mA", "may trip, or hold for ever"),
        ("ground-fault leak=100mA", "trips within 0.1 s"),
        ("ground-fault leak=10-20mA", "trips within 2.69 s"),
    ],
)
def test_devices_answer_with_a_band_of_time(words: str, shows: str) -> None:
    """Over the whole range of what was typed, the mildest end counts."""
    name, *rest = words.split()
    (found,) = told(name, *rest).values()
    assert found["shows"] == shows


@pytest.mark.parametrize(
    ("supper", "words"),
    [("119.0", "can be the load"), ("110.0", "more than a loop"), ("115.7", "may be the loop's load")],
)
def test_a_low_supply_at_supper_is_judged_by_the_fall(supper: str, words: str) -> None:
    """5 % in all is what is advised (NEC informational notes); near it, it is said that it is near."""
    fall = told("park", "sites50=6", "sites30=12", "quiet=121.8", f"supper={supper}")["sag-percent"]
    assert any(words in note for note in fall["notes"]), fall["notes"]


def test_shock_is_never_called_good() -> None:
    """However low the voltage on a rig's metal, no grade clears it, and hands stay off."""
    for volts in ("0.2", "1.4", "30.0", "120.0"):
        found = told("body", f"volts={volts}")["body-milliamps"]
        assert found["grade"] != "ok"
        assert any("Hands off" in note for note in found["notes"])


@pytest.mark.parametrize("room", [40, 80])
@pytest.mark.parametrize("words", [SAG, ("cord", "gauge=10", "feet=50", "amps=30")])
@pytest.mark.parametrize("plain", [False, True])
def test_a_plot_fits_and_names_its_lines(
    words: tuple[str, ...], room: int, *, plain: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Lines, limits and the typed numbers are drawn and named below; in ASCII where no more can be shown."""
    if plain:
        monkeypatch.setenv("SHOREWALK_ASCII", "1")
    else:
        monkeypatch.delenv("SHOREWALK_ASCII", raising=False)
        monkeypatch.setattr("shorewalk.calc.command.cannot_show_blocks", lambda: False)
    text = said(*words, room=room, plot=True)
    assert max(map(cells, text.splitlines())) <= room
    assert "\x1b" not in text
    assert "@ yours" in text
    assert text.count("--- ") >= 2
    assert text.partition("\n\n")[0].endswith(")")
    drawn = text.partition("across: ")[0]
    assert drawn.isascii() is plain
    assert "@" in drawn
    assert ("|" if plain else "│") in drawn


def test_calc_loads_the_plot_s_library_only_to_plot() -> None:
    """And nothing heavy either way."""
    code = (
        "import sys; sys.argv = ['shorewalk', 'calc', *sys.argv[1:]]; from shorewalk.cli import main; main(); "
        "sys.stderr.write(' '.join(sorted({name.partition('.')[0] for name in sys.modules})))"
    )
    heavy = {"numpy", "networkx", "pydantic", "textual", "rich", "segno", "uncertainties"}
    for words, plots in ((SAG, False), ((*SAG, "--plot"), True)):
        ended = subprocess.run(
            [sys.executable, "-c", code, *words],
            capture_output=True,
            text=True,
            check=True,
            env={**os.environ, "COLUMNS": "80"},
        )
        names = set(ended.stderr.split())
        assert ("plotext" in names) is plots
        assert not names & heavy
