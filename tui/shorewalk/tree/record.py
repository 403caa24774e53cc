"""Frozen dataclasses that are quick to define.

Python writes and compiles six methods for each frozen dataclass when its module is imported; with some sixty
classes on the way to the first question that is a third of the wait. Here most methods are shared functions, and
`__init__` is written when the first of its kind is made: most kinds are not needed for the first question. In all
else they are dataclasses as others: `fields`, `replace` and matching work.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import MISSING, FrozenInstanceError, dataclass, field, fields
from operator import attrgetter
from typing import Any, TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(*, kw_only: bool = False) -> Callable[[type[T]], type[T]]:
    """Make a class a frozen dataclass, compared and hashed by its fields."""

    def made(cls: type[T]) -> type[T]:
        cls.__doc__ = cls.__doc__ or cls.__name__  # else a signature is drawn up for it, which takes long
        new: Any = dataclass(kw_only=kw_only, init=False, repr=False, eq=False)(cls)
        compared = [each.name for each in fields(new) if each.compare]
        new._compared = attrgetter(*compared) if compared else type  # noqa: SLF001 (it is ours)
        new.__init__ = _first_init
        new.__eq__, new.__hash__, new.__repr__ = _equal, _hash, _repr
        new.__setattr__, new.__delattr__ = _refuse, _refuse
        return new  # type: ignore[no-any-return]

    return made


def _first_init(self: Any, *args: Any, **kwargs: Any) -> None:
    """Write the `__init__` of this class in its place, and go on with it."""
    cls: Any = next(base for base in type(self).__mro__ if base.__dict__.get("__init__") is _first_init)
    init = cls.__init__ = _written_init(cls)
    init(self, *args, **kwargs)


def _written_init(cls: Any) -> Any:
    known: dict[str, Any] = {"MISSING": MISSING}
    given: list[str] = []
    named: list[str] = []
    body = ["    record_own = self.__dict__"]  # past __setattr__, which refuses
    for each in fields(cls):
        name, default = each.name, f"record_{each.name}"
        value, word = name, name
        if each.default is not MISSING:
            known[default], word = each.default, f"{name}={default}"
        elif each.default_factory is not MISSING:
            known[default], word = each.default_factory, f"{name}=MISSING"
            value = f"{default}() if {name} is MISSING else {name}"
        (named if each.kw_only else given).append(word)
        body.append(f"    record_own[{name!r}] = {value}")
    words = ", ".join(["self", *given, *(["*", *named] if named else [])])
    exec(f"def __init__({words}):\n" + "\n".join(body), known)  # noqa: S102 (as dataclasses does: names of fields)
    return known["__init__"]


def _refuse(self: Any, name: str, *_: object) -> None:
    raise FrozenInstanceError(f"cannot change {name!r} of a {type(self).__qualname__}")


def _of(one: Any) -> Any:
    return type(one)._compared(one)  # noqa: SLF001 (it is ours)


def _equal(self: Any, other: object) -> Any:
    return _of(self) == _of(other) if type(self) is type(other) else NotImplemented


def _hash(self: Any) -> int:
    return hash((type(self), _of(self)))


def _repr(self: Any) -> str:
    shown = ", ".join(f"{each.name}={getattr(self, each.name)!r}" for each in fields(self) if each.repr)
    return f"{type(self).__qualname__}({shown})"
