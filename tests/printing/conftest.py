"""Checklists, and what it takes to go by one: numbers alone, as a person with paper does."""

from __future__ import annotations

import re
from functools import cache

import pytest

from shorewalk.printing.as_text import as_text
from shorewalk.printing.make import checklist
from shorewalk.printing.step import Ahead, Checklist, Step
from shorewalk.tree.library import shipped
from shorewalk.tree.model import AGAIN
from shorewalk.walk.judge import worst_of

ARROW = re.compile(r"^-> (\d+)$")
BACK = re.compile(r"^-> back: (.+)$")
GIVEN = re.compile(r"^\[(.+)\]$")


@cache
def sheet_of(name: str) -> Checklist:
    """Return the checklist of a shipped tree."""
    return checklist(shipped(), name)


@cache
def text_of(name: str) -> str:
    """Return it as text."""
    return as_text(sheet_of(name), 72)


@pytest.fixture(params=shipped().names())
def name(request: pytest.FixtureRequest) -> str:
    """Every shipped tree."""
    return str(request.param)


class Reader:
    """Somebody with the sheet, and the steps they came from into each part (the ticks at its top)."""

    def __init__(self, sheet: Checklist) -> None:
        self.steps = {step.number: step for section in sheet.sections for step in section.steps}
        self.part_of = {
            step.number: at for at, section in enumerate(sheet.sections) for step in section.steps
        }
        self.calls = [{call.number: dict(call.given) for call in section.calls} for section in sheet.sections]

    def begin(self, number: int, ticked: tuple[int, ...] = ()) -> tuple[tuple[int, ...], int]:
        """Return the ticks and the step that is not the doing of a part, from step `number` on."""
        while self.steps[number].kind == "part":
            ticked = (*ticked, number)
            number = self._number(self.line(number, "begin").goes)
        return ticked, number

    def line(self, number: int, key: str) -> Ahead:
        """Return the one line of a step that stands for the way `key`."""
        (found,) = [line for line in self.steps[number].ahead if key in line.key.split(", ")]
        return found

    def follow(self, ticked: tuple[int, ...], line: Ahead) -> tuple[tuple[tuple[int, ...], int], str | None]:
        """Return where a line leads, by what is printed alone, and the worst grade on the way."""
        goes, grades = line.goes, [line.grade]
        while not ARROW.match(goes):
            came_from = ticked[-1]
            if back := BACK.match(goes):
                ends = f"it ends: {back[1]}"
                (out,) = [ahead for ahead in self.steps[came_from].ahead if ahead.says == ends]
                goes, ticked = out.goes, ticked[:-1]
                grades.append(out.grade)
            else:
                word = GIVEN.match(goes.removeprefix("-> "))
                assert word, goes
                if word[1].isdigit():
                    goes = f"-> {word[1]}"
                else:
                    given = self.calls[self.part_of[self._begun(came_from)]][came_from]
                    goes, ticked = f"-> {given[word[1]]}", ticked[:-1]
        number = self._number(goes)
        while ticked and self.part_of[number] != self.part_of[self._begun(ticked[-1])]:
            ticked = ticked[:-1]
        return self.begin(number, ticked), worst_of(grades) or (AGAIN if AGAIN in grades else None)

    def _begun(self, number: int) -> int:
        return self._number(self.line(number, "begin").goes)

    @staticmethod
    def _number(goes: str) -> int:
        found = ARROW.match(goes)
        assert found, goes
        return int(found[1])


def all_steps(sheet: Checklist) -> list[Step]:
    """Return every step."""
    return [step for section in sheet.sections for step in section.steps]
