"""From a person's words to a tree, and the order in which the trees are offered."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk.sections import OTHERS, headers_in, sections_of
from shorewalk.symptoms import matches, nearest
from shorewalk.tree.library import Header, Library, shipped

HEADERS = (
    Header(
        "tingle", "Somebody felt a tingle", ("zap", "buzz from the door handle"), tells=("the rig's metal",)
    ),
    Header("breaker-trips", "The breaker keeps tripping", ("blown fuse",), tells=("one circuit",)),
    Header("lights-dim", "The lights are dim", ("flickering",), "Where the volts are lost."),
)


@pytest.mark.parametrize(
    ("asked", "names"),
    [
        ("zap", ["tingle"]),
        ("Breaker trips", ["breaker-trips"]),
        ("tripped", ["breaker-trips"]),
        ("our breaker was tripping", ["breaker-trips"]),
        ("fuses", ["breaker-trips"]),
        ("the lights", ["lights-dim"]),
        ("light", ["lights-dim"]),
        ("circuit", ["breaker-trips"]),
        ("lost volts", ["lights-dim"]),
        ("i", ["tingle", "breaker-trips", "lights-dim"]),
        ("the", ["tingle", "breaker-trips", "lights-dim"]),
        ("zebra", []),
        ("", []),
    ],
)
def test_words_find_a_tree(asked: str, names: list[str]) -> None:
    """By its name, a piece of what it is called, other forms of its words, at last by what it tells apart."""
    assert [header.name for header in matches(HEADERS, asked)] == names


@pytest.mark.parametrize(
    ("asked", "name"),
    [
        ("zap", "tingle"),
        ("shock", "tingle"),
        ("hurt", "somebody-hurt"),
        ("dark", "no-power"),
        ("why is it so dark in here", "no-power"),
        ("hot plug", "hot-plug"),
        ("my plug got really hot", "hot-plug"),
        ("leaving", "leaving"),
        ("smoke", "something-broke"),
        ("burnt smell", "something-broke"),
        ("thunder", "storm"),
        ("new site", "arrival"),
        ("half the rig", "half-power"),
        ("wasps", "bad-pedestal"),
        ("extension cord", "adapter"),
        ("generator", "generator-change"),
        ("plug falls out", "outlet-loose"),
        ("air conditioner", "air-conditioner"),
        ("batteries", "batteries-flat"),
    ],
)
def test_what_somebody_in_a_hurry_types_finds_the_tree(asked: str, name: str) -> None:
    """Their own words find the shipped tree, first and alone, so that Enter begins it."""
    found = matches(headers_in(sections_of(shipped())), asked)
    assert [header.name for header in found] == [name]


def test_other_forms_of_a_word_come_after_the_very_word() -> None:
    """`burning` is in a lamp that burns out; what smells burnt is offered too."""
    names = [header.name for header in matches(headers_in(sections_of(shipped())), "burning")]
    assert "something-broke" in names
    assert len(names) > 1


def test_misspelt_words_find_the_nearest() -> None:
    """Where nothing fits, what is spelled most alike, or shares a word, is offered."""
    assert nearest(HEADERS, "tingel")[0].name == "tingle"
    assert nearest(HEADERS, "my lamps flickr")[0].name == "lights-dim"
    assert nearest(HEADERS, "qqq") == []


def test_every_shipped_tree_stands_under_one_heading() -> None:
    """`site/headings.yaml` names each shipped tree once, and no other."""
    named = [name for heading in shipped().site.headings.values() for name in heading.trees]
    assert sorted(named) == shipped().names()


def test_what_may_not_wait_comes_first() -> None:
    """Somebody hurt, then somebody who felt a tingle, then what may burn: before everything else."""
    names = [header.name for header in headers_in(sections_of(shipped()))]
    assert names[:4] == ["somebody-hurt", "tingle", "something-broke", "hot-plug"]


def test_a_tree_without_a_heading_comes_last(tmp_path: Path) -> None:
    """A folder's own tree is offered too, under a heading of the program's."""
    for name in ("ours", "tingle"):
        text = f"tree: {name}\nsymptom: It is {name}\nbegin: a\nnodes: {{}}\n"
        (tmp_path / f"{name}.yaml").write_text(text, encoding="utf-8")
    sections = sections_of(Library(tmp_path, checked=False))
    assert [(section.says, section.headers[0].name) for section in sections] == [
        ("Act now", "tingle"),
        (OTHERS, "ours"),
    ]
