"""Kinds of word a file may hold, for pydantic: each with its pattern or list, and what is said of others."""

from __future__ import annotations

import re
from dataclasses import field
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict
from pydantic_core import PydanticCustomError, core_schema

from .facts import LOOKS
from .known_names import NAMES
from .model import AGAIN, CALLS, GRADES, VERDICTS
from .record import record
from .words import choose_from, quoted

SNAKE = "[a-z][a-z0-9]*(_[a-z0-9]+)*"
KEBAB = "[a-z0-9]+(-[a-z0-9]+)*"
TERMINAL = "[A-Za-z0-9]+(-[a-z0-9]+)*"
PARAMETER = "[a-z][a-z0-9]*([-_][a-z0-9]+)*"
DOLLAR = rf"\${PARAMETER}"


NOTHING = "Nothing stands here. Write words, or leave the key out where it may be."


class Shape(BaseModel):
    """Keys that are known and no others; each may carry a sentence that says what it is."""

    model_config = ConfigDict(extra="forbid", use_attribute_docstrings=True)


@record()
class Kind:
    """Words in general; the kinds below narrow it. Their problems are told in our own sentence."""

    def wrong(self, word: str) -> str | None:
        """Return what is wrong with `word`, or `None`."""
        return None if word.strip() else self.blank()

    def blank(self) -> str:
        """Return what is said where no word stands."""
        return NOTHING

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema of such words."""
        return {"type": "string", "pattern": r"\S"}

    def check(self, value: Any) -> str:
        """Return `value` if it is such a word."""
        if not isinstance(value, str):
            found = "a list" if isinstance(value, list) else "keys and values"
            message: str | None = f"Words belong here; found {found}."
        else:
            message = self.wrong(value) and (self.wrong(value) if value.strip() else self.blank())
        if message:
            raise PydanticCustomError("ours", "{said}", {"said": message})
        return str(value)

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> core_schema.CoreSchema:
        del source, handler
        return core_schema.no_info_plain_validator_function(self.check)

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        del core, handler
        return self.schema()


@record()
class Shaped(Kind):
    """Words that match a pattern; `says` names them and gives an example."""

    pattern: str
    says: str

    def wrong(self, word: str) -> str | None:
        if re.fullmatch(self.pattern, word, re.ASCII):
            return None
        return f"{quoted(word)} is not {self.says}."

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "pattern": f"^({self.pattern})$"}


@record()
class Reasoned(Kind):
    """Words that say why."""

    def blank(self) -> str:
        return "No reason stands here. Say why this may stand, or take the line out."


@record()
class Named(Shaped):
    """A name of something shared, or of one's own; an editor offers those that are `of` the shipped ones."""

    of: str = field(kw_only=True)

    def schema(self) -> dict[str, Any]:
        return {NAMES: self.of, **Shaped.schema(self)}


@record()
class OneOf(Kind):
    """Words from a list; a `$parameter` may stand for one where that is told."""

    says: str
    names: tuple[str, ...]
    parameter: bool = field(default=True, kw_only=True)

    def wrong(self, word: str) -> str | None:
        if word in self.names or (self.parameter and re.fullmatch(DOLLAR, word)):
            return None
        return f"{quoted(word)} is not {self.says}.{choose_from(word, self.names)}"

    def schema(self) -> dict[str, Any]:
        listed: dict[str, Any] = {"enum": list(self.names)}
        return {"anyOf": [listed, {"type": "string", "pattern": f"^{DOLLAR}$"}]} if self.parameter else listed


@record()
class Counted(Shaped):
    """A whole number; an editor that reads types may take it for one."""

    def schema(self) -> dict[str, Any]:
        return {"anyOf": [Shaped.schema(self), {"type": "integer", "minimum": 1, "maximum": 99}]}


AMOUNTS = ("none", "one-leg", "usual", "heavy")
METERS = ("normal", "low-impedance")
WHATS = ("ac-volts", "dc-volts", "hertz", "ohms", "amps")

_NODE = "small letters, digits and single underscores, like main_off"
_ID = "small letters, digits and single hyphens, like rig-main"

Text = Annotated[str, Kind()]
Reason = Annotated[str, Reasoned()]
YesNo = Annotated[str, OneOf("an answer", ("yes", "no"), parameter=False)]
Count = Annotated[str, Counted("[1-9][0-9]?", "a whole number from 1 to 99")]
Number = Annotated[
    str, Shaped(r"[+-]?(\d+(\.\d*)?|\.\d+)", "a number: digits, with a point where needed, in quotes")
]
NodeId = Annotated[str, Shaped(SNAKE, f"a node's name: {_NODE}")]
NodeRef = Annotated[
    str, Shaped(rf"{SNAKE}(\.{SNAKE})*|{DOLLAR}", f"a node's name: {_NODE} or sockets_30.hot_neutral")
]
Id = Annotated[str, Shaped(KEBAB, f"a name: {_ID}")]
_REF = (f"{KEBAB}|{DOLLAR}", f"a name: {_ID}, or a $parameter")
Ref = Annotated[str, Shaped(*_REF)]
SignRef = Annotated[str, Named(*_REF, of="signs")]
PlaceRef = Annotated[str, Named(*_REF, of="places")]
LimitRef = Annotated[str, Named(*_REF, of="limits")]
LoadRef = Annotated[str, Named(*_REF, of="loads")]
CautionRef = Annotated[str, Named(*_REF, of="cautions")]
FaultRef = Annotated[str, Named(*_REF, of="faults")]
PartRef = Annotated[str, Named(*_REF, of="parts")]
TreeRef = Annotated[str, Named(*_REF, of="trees")]
TerminalId = Annotated[str, Shaped(TERMINAL, "a terminal's name, like L1 or earth")]
TerminalRef = Annotated[
    str, Shaped(f"{TERMINAL}|{DOLLAR}", "a terminal's name, like L1 or earth, or a $parameter")
]
ParameterId = Annotated[
    str, Shaped(PARAMETER, "a parameter's name, like place (the $ stands only where it is used)")
]
Grade = Annotated[str, OneOf("a grade", (*GRADES, AGAIN))]
Worst = Annotated[str, OneOf("a grade", GRADES)]
Verdict = Annotated[str, OneOf("a verdict", VERDICTS)]
Call = Annotated[str, OneOf("one to call", CALLS)]
First = Annotated[str, OneOf("one to call first", ("emergency-services",))]
Amount = Annotated[str, OneOf("an amount of load", AMOUNTS)]
MeterMode = Annotated[str, OneOf("a way to set the meter", METERS)]
What = Annotated[str, OneOf("something a meter reads", WHATS)]
LookId = Annotated[str, OneOf("a look", LOOKS)]
