"""The facts all trees share."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from shutil import copytree

import pytest

from shorewalk import folders
from shorewalk.tree.check import check_site
from shorewalk.tree.facts import Cut, Limit, Look, Pair, Quantity, Site, Terminal
from shorewalk.tree.library import shipped
from shorewalk.tree.site import read_site
from shorewalk.tree.source import TreeError

LIMITS = 'no-voltage: {value: "5", unit: V, kind: hazard, says: no voltage, source: common practice}\n'
PLACES = """\
pedestal-30:
  says: the 30 A outlet
  kind: outlet
  at: pedestal
  face: tt-30r
  terminals: {L: {role: hot, says: the hot slot}, "N": {role: neutral, says: the neutral slot}}
  looks:
    look-b: {pairs: [L N, rig-outlet-a L G], load: one-leg, shows: [a], voided_by: {cord: another}}
  hidden: [b]
"""
GRADES = """\
quantities:
  hot-neutral:
    {says: hot to neutral, unit: V, what: ac-volts, between: [hot, neutral], at: outlet, load: [none],
     breaker: "on", side: park, normal: some, expects: ["105", "135"], plausible: ["0", "300"], small: "no",
     floor: [{below: no-voltage, grade: stop}, {upto: x}, {grade: ok}]}
results: {leg-cosine: {says: cosine, unit: "1", small: "yes"}}
"""


def test_facts_are_read_whole(tmp_path: Path) -> None:
    """Every field of a fact comes out of its file; numbers are numbers, `yes` and `no` are told apart."""
    for name, text in (("limits", LIMITS), ("places", PLACES), ("grades", GRADES)):
        (tmp_path / f"{name}.yaml").write_text(text, encoding="utf-8")
    site = read_site(tmp_path)
    assert site.limits == {
        "no-voltage": Limit("no-voltage", 5.0, "V", "hazard", "no voltage", "common practice")
    }
    place = site.places["pedestal-30"]
    assert (place.says, place.kind, place.at, place.face) == (
        "the 30 A outlet",
        "outlet",
        "pedestal",
        "tt-30r",
    )
    assert place.terminals["L"] == Terminal("L", "hot", "the hot slot")
    pairs = (Pair("pedestal-30", "L", "N"), Pair("rig-outlet-a", "L", "G"))
    assert place.looks["look-b"] == Look("look-b", pairs, "one-leg", ("a",), (("cord", "another"),))
    assert place.hidden == ("b",)
    assert site.quantities["hot-neutral"] == Quantity(
        id="hot-neutral",
        says="hot to neutral",
        unit="V",
        what="ac-volts",
        between=("hot", "neutral"),
        at="outlet",
        load=("none",),
        breaker="on",
        side="park",
        normal="some",
        expects=(105.0, 135.0),
        plausible=(0.0, 300.0),
        small=False,
        floor=(Cut("stop", "no-voltage"), Cut(None, None, "x"), Cut("ok")),
    )
    assert site.results["leg-cosine"].small
    assert len(site.signs) == len(site.faults) == 0


@pytest.mark.parametrize("read", [read_site, check_site])
@pytest.mark.parametrize(
    ("minutes", "said"), [("soon", '"soon" is not a number.'), ("0", "never counts. Write more than 0.")]
)
def test_an_age_that_is_no_time_is_refused(
    tmp_path: Path, read: Callable[[Path], Site], minutes: str, said: str
) -> None:
    """Both readers say where the minutes of a look are wrong, and what is."""
    copytree(folders.trees() / "site", tmp_path, dirs_exist_ok=True)
    text = (tmp_path / "places.yaml").read_text(encoding="utf-8")
    line = next(at for at, each in enumerate(text.splitlines(), 1) if 'age: "15"' in each)
    (tmp_path / "places.yaml").write_text(text.replace('age: "15"', f'age: "{minutes}"', 1), encoding="utf-8")
    with pytest.raises(TreeError) as caught:
        len(read(tmp_path).places)
    assert said in str(caught.value)
    assert f"places.yaml:{line}:" in str(caught.value)


def test_slot_readings_of_every_shipped_outlet_grow_old() -> None:
    """Live slots count 15 min (common practice); what was read through the plug, or dead, until something is done."""
    for place in shipped().site.places.values():
        for name, look in place.looks.items():
            assert look.lasts == (None if name in ("look-b", "dead-look") else 15.0)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"5"', "five", 'limits.yaml:1:21: "five" is not a number.'),
        ('"5"', "nan", '"nan" is not a number.'),
        ('"5"', "1_0", '"1_0" is not a number.'),
        ("unit: V, ", "", '"unit" is missing here.'),
        ("{value", "[value", "limits.yaml:1:"),
        ("unit: V, ", 'unit: V, shown: "9", ', "`shown` is for a limit of the kind `surely`"),
    ],
)
def test_a_fact_that_cannot_be_understood_has_a_place(tmp_path: Path, old: str, new: str, said: str) -> None:
    """The quick reader of facts, too, says where and what."""
    (tmp_path / "limits.yaml").write_text(LIMITS.replace(old, new), encoding="utf-8")
    with pytest.raises(TreeError) as caught:
        len(read_site(tmp_path).limits)
    assert said in str(caught.value)


def test_every_shipped_limit_has_a_source() -> None:
    """No number is cut at that nobody answers for: a standard with its edition, or common practice."""
    for limit in shipped().site.limits.values():
        assert limit.source.strip(), limit.id
