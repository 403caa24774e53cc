"""The JSON Schema that editors use."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import jsonschema
import pytest

from shorewalk import folders
from shorewalk.tree.schema import schema, schema_text
from shorewalk.tree.source import read_source

SAMPLES = Path(__file__).parent / "samples"
VALIDATOR = jsonschema.Draft202012Validator(schema())


def valid(data: Any) -> bool:
    return bool(VALIDATOR.is_valid(data))


def test_the_schema_is_one() -> None:
    """What is generated is itself sound JSON Schema."""
    jsonschema.Draft202012Validator.check_schema(schema())


def test_the_shipped_schema_is_the_generated_one() -> None:
    """`trees/schema.json` is what `shorewalk schema` prints; print it anew after a change of shapes or facts."""
    assert (folders.trees() / "schema.json").read_text(encoding="utf-8") == schema_text()


def test_a_shipped_file_fits_the_schema(shipped_file: Path) -> None:
    """Every shipped file, read without typing, fits; and its first line tells editors where the schema is."""
    text = shipped_file.read_text(encoding="utf-8")
    above = "" if shipped_file.parent == folders.trees() else "../"
    assert text.splitlines()[0] == f"# yaml-language-server: $schema={above}schema.json"
    assert not [error.message for error in VALIDATOR.iter_errors(read_source(text, shipped_file.name).data)]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("symptom:", "symtom:"),
        ("done:", "don:"),
        ("{goto: stay, grade: stop", "{gto: stay, grade: stop"),
        ("grade: stop", "grade: stp"),
        ("main_off:", "main-off:"),
        ('leaves: {rig-main: "off"}', 'leaves: {rig_main: "off"}'),
        ("end: unplugged", "end: unplgged"),
        ("call: park", "call: nobody"),
        ("also: [new site]", "also: new site"),
        ("step: Switch", "step: x\n    ask: Switch"),
        ("done: at_30", "done: [at_30]"),
        ("begin: main_off\n", ""),
        ("because:", "becuase:"),
    ],
)
def test_a_wrong_key_or_word_is_caught(old: str, new: str) -> None:
    """The schema is closed everywhere: no misspelt key or word passes an editor."""
    text = (SAMPLES / "small.yaml").read_text(encoding="utf-8")
    assert old in text
    assert valid(read_source(text, "small.yaml").data)
    assert not valid(read_source(text.replace(old, new, 1), "small.yaml").data)


def test_every_mapping_in_the_schema_is_closed() -> None:
    """No mapping anywhere takes keys it does not know."""

    def open_ones(data: Any, at: str) -> list[str]:
        if isinstance(data, list):
            return [found for index, item in enumerate(data) for found in open_ones(item, f"{at}/{index}")]
        if not isinstance(data, dict):
            return []
        mine = [at] if data.get("type") == "object" and data.get("additionalProperties") is not False else []
        return mine + [found for key, value in data.items() for found in open_ones(value, f"{at}/{key}")]

    assert open_ones(schema(), "#") == []


def test_every_key_says_what_it_is() -> None:
    """An editor shows a sentence beside every key it offers."""
    for name, shape in schema()["$defs"].items():
        if "enum" in shape:
            continue
        assert shape.get("description"), name
        assert all(value.get("description") for value in shape["properties"].values()), name


def test_a_count_may_be_typed_or_not() -> None:
    """An editor reads `at_most: 2` as a number, the program as a word; both fit, and neither fits 0."""
    node = {"step": "x", "done": "a", "spent": "a"}
    tree = {"tree": "a", "symptom": "b", "begin": "a"}
    for count, fits in ((2, True), ("2", True), (0, False), ("0", False), (100, False), ("two", False)):
        assert valid(tree | {"nodes": {"a": node | {"at_most": count}}}) is fits, count
