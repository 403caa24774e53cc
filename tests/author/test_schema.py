"""What an author's editor makes of the JSON Schema, judged by a validator and a YAML reader that are not ours."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import jsonschema
import pytest
import yaml

from shorewalk.folders import trees
from shorewalk.tree.model import VERDICTS

SCHEMA = json.loads((trees() / "schema.json").read_text(encoding="utf-8"))
SHAPES = {name: made for name, made in SCHEMA["$defs"].items() if "enum" not in made}
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)
SHIPPED = sorted([*trees().glob("*.yaml"), *trees().glob("parts/*.yaml")])
TREE = """\
tree: low-at-supper
symptom: The lights go dim at supper
begin: look
nodes:
  look:
    ask: Are there scorch marks on the outlet?
    sign: burn-marks
    choices:
      none: {says: "No", goto: fine}
      present: {says: "Yes", grade: stop, goto: doubt}
    unsure: doubt
  fine: {end: leave-as-is, because: Nothing was seen., safe_action: Leave it., call: park, call_when: it smells}
  doubt: {end: hands-off, because: It is not known to be safe., safe_action: Touch nothing., call: park}
"""


def read(text: str) -> Any:
    """Read YAML as an editor set to words would: no types."""
    return yaml.load(text, Loader=yaml.BaseLoader)  # noqa: S506 (it makes words, lists and mappings only)


def faults(text: str) -> list[str]:
    return [error.message for error in VALIDATOR.iter_errors(read(text))]


@pytest.mark.parametrize("file", SHIPPED, ids=lambda file: file.name)
def test_a_shipped_file_is_valid(file: Any) -> None:
    """Every tree and part is valid to a reader and a validator of others."""
    assert faults(file.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("sign: burn-marks", "sgin: burn-marks"),
        ("end: hands-off", "end: hand-off"),
        ("ask: Are", "question: Are"),
        ("goto: fine}", "go: fine}"),
        ("call: park, call_when", "call: the-park, call_when"),
        ("grade: stop", "grade: bad"),
        ("unsure: doubt", "unsure: [doubt]"),
        ("symptom: The", "title: The"),
    ],
)
def test_a_slip_is_caught(old: str, new: str) -> None:
    """A wrong key, a wrong word of a list, a node of no kind: an editor marks each while it is typed."""
    assert faults(TREE) == []
    assert old in TREE
    assert faults(TREE.replace(old, new))


def keys() -> Iterator[tuple[str, str, dict[str, Any]]]:
    for shape, made in SHAPES.items():
        for key, value in made["properties"].items():
            yield shape, key, value


def test_an_editor_has_a_sentence_for_every_key() -> None:
    """Beside each key, and each kind of node, stands what it is; one word would say no more than the key."""
    assert all(made["description"].endswith(".") for made in SHAPES.values())
    short = [f"{shape}.{key}" for shape, key, value in keys() if len(value["description"].split()) < 2]
    assert short == []


def test_an_editor_tells_what_each_verdict_means() -> None:
    """Whoever chooses a verdict sees all of them, and when each is right."""
    described = SCHEMA["$defs"]["EndShape"]["properties"]["end"]["description"]
    assert [verdict for verdict in VERDICTS if verdict not in described] == []


def test_an_editor_offers_the_names_that_are_shared() -> None:
    """Signs, limits and states are offered with what they stand for; names of one's own stay allowed."""
    names = SCHEMA["$defs"]["known-signs"]
    assert dict(zip(names["enum"], names["enumDescriptions"], strict=True))["smell"] == (
        "a smell of burning: none, burning"
    )
    assert "service-a-low" in SCHEMA["$defs"]["known-limits"]["enum"]
    assert SCHEMA["$defs"]["states"]["properties"]["rig-main"]["anyOf"][0] == {"enum": ["off", "on"]}
    assert faults(TREE.replace("sign: burn-marks", "sign: our-own-sign")) == []
    assert faults(TREE.replace("begin: look", "begin: look\nstarts: {our-own-state: seen}")) == []
    assert faults(TREE.replace("begin: look", "begin: look\nstarts: {Our State: seen}"))
