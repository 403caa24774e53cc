"""The arrival routine, walked honestly at every pedestal of the table."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from shorewalk.pedestal.person import Person, Shown

from .drive import Json, Walked, says, walk_inside, walk_outside
from .table import GOOD, ONE_HOT, SEEN_BY_NONE, STOPS, Case, Fault, cases, loop

ROWS = [*STOPS, *SEEN_BY_NONE, *GOOD]


def at(case: Case, meter: Shown | None = None) -> Person:
    return Person(case.fault.stand(case.outlet), case.outlet, meter or Shown())


def check(case: Case, person: Person, walked: Walked) -> None:
    """Hold an honest walk to what its row wants."""
    fault, end = case.fault, walked.end
    assert walked.allows_use is fault.use, walked.tell()
    assert end["call"] == fault.call, walked.tell()
    assert end["safe_action"], walked.tell()
    if fault.use and fault.named:
        named = {says(name) for name in fault.named}
        assert named & set(end["not_ruled_out"]), walked.tell()
    if not fault.use and not fault.through_plug:
        assert not walked.plugged, f"the cord went in\n{walked.tell()}"
    if fault.use:
        assert (person.stand.switched.cord, person.stand.switched.main) == (case.outlet, True)
    elif walked.verdict == "stay-unplugged":
        assert person.stand.switched.cord is None


@pytest.mark.parametrize("case", cases(ROWS), ids=str)
def test_every_row_ends_as_it_must(case: Case) -> None:
    """Seen: no use, the right call, and before the cord is in. Not to be seen: use, and it is named. Sound: use."""
    person = at(case)
    check(case, person, walk_inside(person))


@pytest.mark.parametrize(
    "case", [cases([row])[place % len(cases([row]))] for place, row in enumerate(ROWS)], ids=str
)
def test_the_command_ends_every_row_the_same(case: Case, tmp_path: Path) -> None:
    """The program itself, one JSON object a line each way, one outlet of each row in turn."""
    person = at(case)
    walked = walk_outside(person, str(tmp_path))
    check(case, person, walked)
    inside = walk_inside(at(case))
    assert (walked.end, len(walked.said)) == (inside.end, len(inside.said))


@pytest.mark.parametrize("gain", [-0.012, 0.012])
@pytest.mark.parametrize("case", cases(ROWS), ids=str)
def test_a_basic_meter_at_its_worst_changes_no_ending(case: Case, gain: float) -> None:
    """1.2 % off either way: every fault is still found, every sound supply still passes."""
    person = at(case, Shown(gain, offset=0.1 if gain > 0 else -0.1))
    check(case, person, walk_inside(person))


@pytest.mark.parametrize("outlet", ["50", "30", "20"])
def test_a_supply_within_the_range_shown_above_it_ends_in_use(outlet: str) -> None:
    """125.9 V that a basic meter shows as 127.4: use with care, for 126 V may not be passed."""
    park = loop(volts1=125.9, volts2=125.9, neighbour1=0.0, neighbour2=0.0)
    walked = walk_inside(Person(Fault("high", park=park).stand(outlet), outlet, Shown(0.0119)))
    assert "127.4" in str(walked.said)
    assert walked.verdict == "use-with-care", walked.tell()


def test_two_legs_of_208y_are_told_to_the_park_and_used_with_care() -> None:
    """No fault, but 240 V appliances are weak, and the neutral carries current even with equal loads."""
    row = next(row for row in SEEN_BY_NONE if row.id == "208Y")
    walked = walk_inside(at(Case(row, "50")))
    assert walked.verdict == "use-with-care"
    assert "208" in walked.end["because"] + walked.end["say"]


def test_a_live_ground_that_somebody_felt_is_an_emergency() -> None:
    """Emergency services first, then the park, who alone can switch the loop off."""
    row = next(row for row in STOPS if row.id == "ground live from elsewhere")
    person = replace(at(Case(row, "30")), signs={"tingle": "yes"})
    walked = walk_inside(person)
    assert (walked.verdict, walked.end["first"], walked.end["call"]) == (
        "emergency", "emergency-services", "park"
    )  # fmt: skip


@pytest.mark.parametrize("outlet", ["50", "30", "20"])
@pytest.mark.parametrize("lacks", ["peg", "protector", "load"])
def test_whoever_skips_a_check_gets_the_lesser_verdict_and_is_told(outlet: str, lacks: str) -> None:
    """At a sound pedestal: use with care, and what the check would have shown is named."""
    person = replace(at(Case(GOOD[0], outlet)), lacks=frozenset((lacks,)))
    walked = walk_inside(person)
    assert walked.verdict == "use-with-care", walked.tell()
    shows = {"peg": "false-ground", "load": "neutral-loose"}
    if lacks in shows:
        assert says(shows[lacks]) in walked.end["not_ruled_out"]


@pytest.mark.parametrize("outlet", ["50", "30", "20"])
def test_with_no_way_to_read_the_skin_the_cord_comes_out_again(outlet: str) -> None:
    """No peg, no detector, and no ground to probe: nobody touches the rig."""
    person = replace(at(Case(GOOD[0], outlet)), lacks=frozenset(("peg", "detector")))
    blind = {"unable": True}
    walked = walk_inside(
        person, lambda _, question: blind if question.get("measure", {}).get("place") == "rig-skin" else None
    )
    assert walked.verdict == "stay-unplugged", walked.tell()


@pytest.mark.parametrize(
    ("outlet", "verdict"), [("50", "good-to-use"), ("30", "good-to-use"), ("20", "stay-unplugged")]
)
def test_shutters_that_refuse_a_probe_hide_the_ground_of_a_20(outlet: str, verdict: str) -> None:
    """It may then carry the test load, but not our cord; never is it called an open ground."""

    def refuse(_: int, question: Json) -> Json | None:
        asked = question.get("measure", {})
        hidden = {"G", "earth"} & {asked.get("from"), asked.get("to")}
        return {"unable": True} if hidden and asked["place"].startswith("pedestal-20") else None

    walked = walk_inside(at(Case(GOOD[0], outlet)), refuse)
    assert walked.verdict == verdict, walked.tell()
    assert "ground_open" not in walked.end["at"]


@pytest.mark.parametrize("outlet", ["50", "30", "20"])
def test_a_peg_in_dry_soil_is_set_anew_once(outlet: str) -> None:
    """Mended, it ends well; still dry, it is a stop, for a false ground reads just so."""
    dry = Fault("dry peg", park=loop(peg=3e7))
    stays = walk_inside(Person(dry.stand(outlet), outlet))
    assert stays.verdict == "stay-unplugged", stays.tell()
    person = Person(dry.stand(outlet), outlet)

    def deepen(_: int, question: Json) -> None:
        if "peg in deeper" in str(question["text"]):
            damp = person.stand.circuit.change("peg", ohms=200.0)
            person.stand = replace(person.stand, circuit=damp, _solved={})

    mended = walk_inside(person, deepen)
    assert mended.allows_use, mended.tell()


@pytest.mark.parametrize("outlet", ONE_HOT)
def test_an_adapter_is_asked_about_and_ends_in_use(outlet: str) -> None:
    """A 50 plug on a 30 reads 0 leg to leg by design: no leg is called lost."""
    walked = walk_inside(replace(at(Case(GOOD[0], outlet)), signs={"adapter": "fitted"}))
    assert walked.allows_use, walked.tell()


@pytest.mark.parametrize("case", [case for case in cases(GOOD) if not case.fault.idle], ids=str)
def test_the_walk_believes_what_was_done(case: Case) -> None:
    """At every question the state it tells is what the steps done so far have left."""
    so = {"cord": "unplugged", "test-load": "off"}

    def compare(_: int, question: Json) -> None:
        told = {name: value for name, value in question["state"].items() if name in so}
        assert told == {name: so[name] for name in told}, question["at"]
        so.update(question.get("leaves", {}))

    assert walk_inside(at(case), compare).allows_use
