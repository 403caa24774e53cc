"""The JSON Schema of tree and part files, for editors that complete and check while one writes.

It says what one file can say of itself; names that reach into other files are the linter's to check.
YAML editors read `on`, `50` or `no` as other than words: write those in quotes.
"""

from __future__ import annotations

import json
from typing import Any

from pydantic import TypeAdapter
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from .file_shapes import File
from .known_names import NAMES, known_names, known_states
from .shapes import States

DIALECT = "https://json-schema.org/draft/2020-12/schema"


class _Strict(GenerateJsonSchema):
    """Closes mappings whose keys have a pattern; pydantic leaves them open to any other key."""

    def dict_schema(self, schema: core_schema.DictSchema) -> JsonSchemaValue:
        made = super().dict_schema(schema)
        if "patternProperties" in made:
            made["additionalProperties"] = False
        return made

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        # A key that need not be there is left out; there is no null in a file read as words.
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        made = super().default_schema(schema)
        made.pop("default", None)
        return made


def schema() -> dict[str, Any]:
    """Return the JSON Schema of a tree or part file."""
    made = TypeAdapter(File).json_schema(schema_generator=_Strict, by_alias=True)
    about = "A shorewalk decision tree, or a part of one"
    made = _named(_untitled(made))
    made["$defs"] |= {"states": _states(), **known_names()}
    return {"$schema": DIALECT, "title": about, **made}


def schema_text() -> str:
    """Return the schema as the text of `trees/schema.json`."""
    return json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"


def _named(data: Any) -> Any:
    """Put the names that are known where they may stand: to be offered beside any other name."""
    if isinstance(data, list):
        return [_named(item) for item in data]
    if not isinstance(data, dict):
        return data
    made = {key: _named(value) for key, value in data.items() if key != NAMES}
    if NAMES not in data:
        return made
    about = {"description": made.pop("description")} if "description" in made else {}
    match data[NAMES]:
        case "states":
            return {**about, "$ref": "#/$defs/states"}
        case kind:
            return {**about, "anyOf": [{"$ref": f"#/$defs/known-{kind}"}, made]}


def _states() -> dict[str, Any]:
    """Return states and their values: any there may be, and words for those that are shipped."""
    made: dict[str, Any] = TypeAdapter(States).json_schema(schema_generator=_Strict)
    del made[NAMES]
    (any_value,) = made["patternProperties"].values()
    known = {
        name: {"description": state.pop("description"), "anyOf": [state, any_value]}
        for name, state in known_states().items()
    }
    return {"description": "States, each with its value.", **made, "properties": known}


def _untitled(data: Any) -> Any:
    """Leave out the titles made from names: an editor shows the descriptions."""
    if isinstance(data, dict):
        made = {
            key: _untitled(value)
            for key, value in data.items()
            if not (key == "title" and isinstance(value, str))
        }
        if "description" in made and isinstance(made["description"], str):
            made["description"] = " ".join(
                made["description"].replace("`", "").split()
            )  # editors escape them
        return made
    return [_untitled(item) for item in data] if isinstance(data, list) else data
