"""Facts of a folder laid over those that all trees share."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk import folders
from shorewalk.tree.layers import layer_of, layered
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.source import TreeError, read_source

LIMITS = """\
skin-stop: {value: "4", unit: V, kind: hazard, says: too much, source: common practice}
our-low: {value: "112", unit: V, kind: supply, says: the least we want, source: common practice}
"""
GRADES = """\
results: {our-sum: {says: our sum, unit: A, floor: [{below: our-low, grade: stop}, {grade: ok}]}}
"""


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A folder with two files of facts of its own."""
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "limits.yaml").write_text(LIMITS, encoding="utf-8")
    (tmp_path / "site" / "grades.yaml").write_text(GRADES, encoding="utf-8")
    return tmp_path


def test_facts_are_laid_over_each_other_by_id() -> None:
    """New ids come behind the old ones; of two facts with one id the later counts, or firmly the first."""
    shared, mine = {"a": 1, "b": 2}, {"b": 3, "c": 4}
    assert list(layered([shared, mine]).items()) == [("a", 1), ("b", 3), ("c", 4)]
    assert list(layered([shared, mine], firm=True).items()) == [("a", 1), ("b", 2), ("c", 4)]
    assert layered([]) == {}


@pytest.mark.parametrize("checked", [True, False])
def test_a_folders_facts_add_to_the_shared_ones(own: Path, *, checked: bool) -> None:
    """Both readers: what is new is there, what is named again is the folder's, and all else is shared."""
    site, shared = Library(own, checked=checked).site, shipped().site
    assert site.limits["skin-stop"].value == 4
    assert site.limits["our-low"].value == 112
    assert site.limits["no-voltage"] == shared.limits["no-voltage"]
    assert list(site.limits) == [*shared.limits, "our-low"]
    assert set(site.results) == {*shared.results, "our-sum"}
    assert (site.quantities, site.signs, site.states) == (shared.quantities, shared.signs, shared.states)


def test_safety_rules_are_added_to_and_never_replaced(own: Path) -> None:
    """A shared rule says what it says for all, whatever a folder writes under its name."""
    name, rule = next(iter(shipped().site.safety.items()))
    shared = (folders.trees() / "site" / "safety.yaml").read_text(encoding="utf-8")
    begin = shared.index(f"\n{name}:") + 1
    body = shared[begin + len(name) :].split("\n\n")[0]
    other = next(each for each in shipped().site.safety if each != name)
    (own / "site" / "safety.yaml").write_text(f"ours{body}\n{other}{body}\n", encoding="utf-8")
    safety = Library(own, checked=False).site.safety
    assert list(safety) == [*shipped().site.safety, "ours"]
    assert safety[name] == rule
    assert safety[other] == shipped().site.safety[other]


def test_places_lead_into_the_layer_a_fact_is_from(own: Path) -> None:
    """So that a finding about a fact stands in the file whose author can mend it."""
    library = Library(own)
    mine, theirs = own / "site", folders.trees() / "site"
    assert library.fact("limits", ("skin-stop", "value"))[:2] == (str(mine / "limits.yaml"), 1)
    assert Path(library.fact("limits", ("no-voltage",)).file) == theirs / "limits.yaml"
    assert Path(library.fact("grades", ("results", "our-sum")).file) == mine / "grades.yaml"
    assert Path(library.fact("grades", ("results", "sag-percent")).file) == theirs / "grades.yaml"
    assert Path(library.fact("signs", ("wet",)).file) == theirs / "signs.yaml"


def test_a_fact_that_was_replaced_without_a_key_is_still_the_folders() -> None:
    """What was left out of it is looked for where it was written last, not in the layer below."""
    layers = [
        read_source("results: {a: {unit: V, floor: []}}", "x"),
        read_source("results: {a: {unit: V}}", "y"),
    ]
    found = layer_of(layers, "grades", ("results", "a", "floor"))
    assert found is not None
    assert found.file == "y"
    fresh = layer_of(layers, "grades", ("results", "b"))
    assert fresh is not None
    assert fresh.file == "y"
    assert layer_of([], "grades", ("results",)) is None


def test_what_two_layers_say_of_each_other_is_checked(own: Path) -> None:
    """A folder's fact may name a shared one; a name that is in neither is told where the folder wrote it."""
    (own / "site" / "grades.yaml").write_text(GRADES.replace("below: our-low", "below: our-lw"))
    with pytest.raises(TreeError) as caught:
        _ = Library(own).site
    (problem,) = caught.value.problems
    assert problem.place[:2] == (str(own / "site" / "grades.yaml"), 1)
    assert 'no limit "our-lw"' in problem.message


def test_what_a_folder_took_from_the_shared_facts_is_told_of_it(own: Path) -> None:
    """A shared fact that names what is gone now says which folder left it out."""
    (own / "site" / "signs.yaml").write_text(
        "heat: {says: heat, by: hand, at: pedestal, answers: {cool: ok, warm: watch}}\n"
    )
    with pytest.raises(TreeError, match=r'no answer of heat "hot"') as caught:
        _ = Library(own).site
    for problem in caught.value.problems:
        assert problem.message.endswith(f"The facts in {own / 'site'} left it out.")


def test_the_shipped_folder_is_no_layer_over_itself(monkeypatch: pytest.MonkeyPatch) -> None:
    """However it is named: its facts are the shared ones."""
    assert shipped().site_folders == (folders.trees() / "site",)
    monkeypatch.chdir(folders.trees().parent)
    assert Library(Path("trees")).site_folders == (Path("trees/site"),)
