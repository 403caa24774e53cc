"""A lower reading with a load on never reads better than a higher one at rest of the same slots."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shorewalk.author.folding import folded
from shorewalk.folders import demo_data
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.model import worse
from shorewalk.walk.at_rest import no_better, same_slots
from shorewalk.walk.evidence import floor_of
from shorewalk.walk.interval import Amount, of_reading
from shorewalk.walk.judge import rank
from shorewalk.walk.known import Known
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.reading import read
from shorewalk.walk.walk import Walk, resume

from .test_voltage_low import low

Go = Callable[..., Walk]
SITE = shipped().site
WHY = "At rest it was 112.3 V; with a load on this is no better."
METERS = ("good", "basic,tenths", "basic")


def known_at(walk: Walk, at: str) -> Known:
    return next(known for known in walk.now.known if known.at == at)


def test_what_was_low_at_rest_is_low_with_a_load_on(go: Go) -> None:
    """112.3 V at rest is under 114 V, the service's low end; 111.5 V is over the loaded limit, and no better."""
    walk = go("voltage-low", low("112.3", "111.5"))
    assert [known_at(walk, at).grade for at in ("idle.hot_neutral", "load.loaded")] == ["watch", "watch"]
    assert WHY in (known_at(walk, "load.loaded").note or "")


def test_what_was_good_at_rest_has_the_loaded_limits(go: Go) -> None:
    """From 116.0 V to 112.2 V one heater's sag is ordinary: the loaded limit alone judges it, and nothing is said."""
    walk = go("voltage-low", low("116.0", "112.2"))
    assert [known_at(walk, at).grade for at in ("idle.hot_neutral", "load.loaded")] == ["ok", "ok"]
    assert "At rest" not in (known_at(walk, "load.loaded").note or "")


def test_it_is_told_at_once_and_leads_no_other_way(go: Go, library: Library) -> None:
    """The next question says why the reading just typed is a watch; the walk's worst grade was that before."""
    walk = go("voltage-low", low("112.3", "111.5"))
    at = next(place for place, answered in enumerate(walk.answers) if answered.at == "load.loaded")
    before, _ = resume(library, "voltage-low", walk.meter, walk.answers[:at])
    after, _ = resume(library, "voltage-low", walk.meter, walk.answers[: at + 1])
    assert before.now.worst == after.now.worst == "watch"
    assert WHY in after.now.notes


def test_through_another_outlet_it_is_another_supply(go: Go) -> None:
    """A reading taken after the cord went elsewhere is not held to one from before."""
    taken = go("voltage-low", low("112.3", "111.5")).ledger.taken
    rest, loaded = (
        next(one for (_, node), one in taken.items() if node == name)
        for name in ("idle.hot_neutral", "load.loaded")
    )
    moved = replace(loaded, standing={**loaded.standing, "cord": frozenset({"elsewhere"})})
    assert same_slots(rest, loaded)
    assert not same_slots(rest, moved)


def amount(volts: float, meter: str) -> Amount:
    used = parse_meter(meter)
    quantity = SITE.quantities["hot-neutral"]
    shown = read(
        f"{volts:.1f}" if "tenths" in meter or meter == "good" else f"{volts:.0f}",
        "ac-volts",
        quantity,
        used,
        confirmed=True,
    )
    return of_reading("k", shown, used, "ac-volts")


def loaded_grade(rest: Amount, loaded: Amount) -> str | None:
    own = floor_of(SITE.quantities["hot-neutral-loaded"], loaded, SITE)
    return worse(own, no_better(rest, loaded, SITE.quantities["hot-neutral"], SITE))


@given(rest=st.floats(90, 126), fall=st.floats(0, 30), meter=st.sampled_from(METERS))
def test_no_fall_under_load_reads_better(rest: float, fall: float, meter: str) -> None:
    """Whatever the meter: as bad as at rest, or worse, for every supply that is not over 126 V."""
    before, after = amount(rest, meter), amount(rest - fall, meter)
    assert rank(loaded_grade(before, after)) >= rank(floor_of(SITE.quantities["hot-neutral"], before, SITE))


@pytest.mark.parametrize(("rest", "loaded"), [("127.4", "124.0"), ("112.0", "118.0")])
def test_what_did_get_better_reads_better(rest: str, loaded: str) -> None:
    """A supply that was too high and is not so any more, and one that rose meanwhile, are what they are now."""
    assert loaded_grade(amount(float(rest), "good"), amount(float(loaded), "good")) == "ok"


def pairs(known: Iterable[Known]) -> list[tuple[Known, Known]]:
    """Every loaded reading of a walk with the last one at rest before it, of the same slots."""
    taken = sorted((one for one in known if one.place and not one.void), key=lambda one: one.index)
    found = []
    for at, one in enumerate(taken):
        same = [
            rest
            for rest in taken[:at]
            if rest.load == "none" and (rest.place, {rest.from_, rest.to}) == (one.place, {one.from_, one.to})
        ]
        if one.load != "none" and same:
            found.append((same[-1], one))
    return found


def test_in_no_recorded_walk_a_load_makes_it_look_better(library: Library) -> None:
    """In all recorded walks no loaded voltage is "good" that is at most what was under 114 V at rest."""
    seen = 0
    files = sorted((demo_data() / "walks").glob("*.yaml"))
    for tree in library.names():
        mine = [path for path in files if path.read_text(encoding="utf-8").startswith(f"walk: {tree}\n")]
        for _, walk in folded(library, [read_recorded(path, library) for path in mine]):
            assert isinstance(walk, Walk)
            for rest, loaded in pairs(walk.now.known):
                short = "hot-neutral" in (rest.quantity or "") and (rest.value or 0) < 114
                if short and (loaded.value or 0) <= (rest.value or 0) and loaded.grade:
                    seen += 1
                    assert loaded.grade != "ok", (walk.tree, loaded)
    assert seen > 20
