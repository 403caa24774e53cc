"""Frozen dataclasses that are quick to define.

Python writes and compiles six methods for each frozen dataclass when its module is imported; with some sixty
classes on the way to the first question that is a third of the wait. Here equality, hash and repr are shared
functions, and only the rest is made for each class. In all else they are ordinary frozen dataclasses.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, fields
from operator import attrgetter
from typing import Any, TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(*, kw_only: bool = False, slots: bool = True) -> Callable[[type[T]], type[T]]:
    """Make a class a frozen dataclass, compared and hashed by its fields."""

    def made(cls: type[T]) -> type[T]:
        cls.__doc__ = cls.__doc__ or cls.__name__  # else a signature is drawn up for it, which takes long
        new: Any = dataclass(frozen=True, slots=slots, kw_only=kw_only, repr=False, eq=False)(cls)
        compared = [each.name for each in fields(new) if each.compare]
        new._compared = attrgetter(*compared) if compared else type  # noqa: SLF001 (it is ours)
        new.__eq__, new.__hash__, new.__repr__ = _equal, _hash, _repr
        return new  # type: ignore[no-any-return]

    return made


def _of(one: Any) -> Any:
    return type(one)._compared(one)  # noqa: SLF001 (it is ours)


def _equal(self: Any, other: object) -> Any:
    return _of(self) == _of(other) if type(self) is type(other) else NotImplemented


def _hash(self: Any) -> int:
    return hash((type(self), _of(self)))


def _repr(self: Any) -> str:
    shown = ", ".join(f"{each.name}={getattr(self, each.name)!r}" for each in fields(self) if each.repr)
    return f"{type(self).__qualname__}({shown})"
