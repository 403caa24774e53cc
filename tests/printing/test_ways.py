"""By the printed numbers alone one comes to where the program goes, from every node by every way out."""

from __future__ import annotations

import re

from shorewalk.tree.library import shipped
from shorewalk.tree.model import End, Jump, ways_out

from .conftest import Reader, all_steps, sheet_of, text_of


def _names(reader: Reader, ticked: tuple[int, ...], number: int) -> str:
    """Return the full name of the node where somebody with these ticks stands."""
    return ".".join(reader.steps[step].at[1] for step in (*ticked, number))


def test_paper_leads_where_the_program_leads(name: str) -> None:
    """From the first step on, every way of every node is a line, with its grade, and leads to the same node."""
    tree, reader = shipped().tree(name), Reader(sheet_of(name))
    first = reader.begin(1)
    assert _names(reader, *first) == tree.begin
    waiting, seen = [first], {first}
    for ticked, number in waiting:
        step = reader.steps[number]
        for label, way in ways_out(tree.nodes[_names(reader, ticked, number)]):
            found, grade = reader.follow(ticked, reader.line(number, label))
            assert (_names(reader, *found), grade) == (way.goto, way.grade), f"{number}, {label}"
            if found not in seen:
                seen.add(found)
                waiting.append(found)
        assert bool(step.ahead) is (step.kind not in ("end", "jump"))
    come_to = {number for ticked, number in seen for number in (*ticked, number)}
    assert come_to == set(reader.steps), "a number that stands there is never come to"
    assert {_names(reader, *at) for at in seen} == set(tree.nodes)


def test_every_number_that_is_named_stands_there(name: str) -> None:
    """No arrow, no `[12]` and no `from 12` names a step that is not on the sheet, and each number stands once."""
    text = text_of(name)
    heads = [int(number) for number in re.findall(r"^ {0,2}(\d{1,3})  [A-Z]", text, re.MULTILINE)]
    assert heads == list(range(1, len(all_steps(sheet_of(name))) + 1))
    named = re.findall(r"-> (\d+)|\[(\d+)(?: from (\d+))?\]|from\s+step\s+(\d+)", text)
    assert {int(number) for found in named for number in found if number} <= set(heads)


def test_steps_that_end_are_those_of_the_tree(name: str) -> None:
    """Every ending of the tree stands on the sheet with its verdict, and every jump names its tree."""
    tree = shipped().tree(name)
    steps = all_steps(sheet_of(name))
    assert {node.verdict for node in tree.nodes.values() if isinstance(node, End)} == {
        step.mark for step in steps if step.mark
    }
    for node in tree.nodes.values():
        if isinstance(node, Jump):
            assert any(f'sheet "{node.tree}"' in step.text for step in steps if step.kind == "jump")
