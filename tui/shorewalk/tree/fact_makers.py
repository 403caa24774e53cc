"""From the plain data of one fact to its frozen dataclass; one function a kind."""

from __future__ import annotations

from .facts import (
    Appliance,
    Caution,
    Cut,
    Fault,
    Heading,
    Limit,
    Look,
    Pair,
    PlaceFact,
    Quantity,
    Result,
    Sign,
    State,
    Terminal,
)
from .model import Route
from .source import Data
from .take import (
    Mistake,
    maybe,
    take_list,
    take_map,
    take_number,
    take_pairs,
    take_word,
    take_words,
    take_yes,
)
from .words import quoted

Map = dict[str, Data]
AGE = "age"


def _word(data: Map, key: str, route: Route) -> str:
    return take_word(data.get(key), (*route, key))


def _span(data: Data, route: Route) -> tuple[float, float]:
    ends = take_list(data, route)
    if len(ends) != 2:
        raise Mistake(route, f"{len(ends)} numbers stand here. Write two, the low one first.")
    low, high = (take_number(end, (*route, at)) for at, end in enumerate(ends))
    if low > high:
        raise Mistake(route, f"{low:g} is over {high:g}. Write the low number first.")
    return low, high


def make_limit(name: str, data: Map, route: Route) -> Limit:
    """Return a limit."""
    value = take_number(data.get("value"), (*route, "value"))
    unit, kind, says, source = (_word(data, key, route) for key in ("unit", "kind", "says", "source"))
    shown = take_number(data["shown"], (*route, "shown")) if "shown" in data else None
    if shown is not None and (kind != "surely" or shown < value):
        what = f"`shown` is for a limit of the kind `surely`, and not under its value of {value:g}."
        raise Mistake((*route, "shown"), what)
    return Limit(name, value, unit, kind, says, source, shown)


def make_place(name: str, data: Map, route: Route) -> PlaceFact:
    """Return a place with its terminals and looks."""
    looks = take_map(data.get("looks", {}), (*route, "looks"))
    return PlaceFact(
        name,
        _word(data, "says", route),
        _word(data, "kind", route),
        _word(data, "at", route),
        {
            key: Terminal(
                key, *(_word(take_map(slot, (*at, key)), word, (*at, key)) for word in ("role", "says"))
            )
            for at in ((*route, "terminals"),)
            for key, slot in take_map(data.get("terminals"), at).items()
        },
        maybe(take_word, data, "face", route),
        {
            key: _look(key, take_map(look, (*route, "looks", key)), (*route, "looks", key))
            for key, look in looks.items()
        },
        take_words(data, "hidden", route),
        maybe(take_word, data, "touches", route),
    )


def _look(name: str, data: Map, route: Route) -> Look:
    place = str(route[0])
    pairs = []
    for at, word in enumerate(take_words(data, "pairs", route)):
        match word.split():
            case [one, other]:
                pairs.append(Pair(place, one, other))
            case [elsewhere, one, other]:
                pairs.append(Pair(elsewhere, one, other))
            case _:
                what = f'{quoted(word)} is not a pair. Write "L N", or "rig-outlet-a L N" for another place.'
                raise Mistake((*route, "pairs", at), what)
    voided_by = take_pairs(data, "voided_by", route)
    return Look(
        name,
        tuple(pairs),
        maybe(take_word, data, "load", route) or "none",
        take_words(data, "shows", route),
        tuple(pair for pair in voided_by if pair[0] != AGE),
        maybe(_minutes, dict(voided_by), AGE, (*route, "voided_by")),
        maybe(take_word, data, "breaker", route) or "on",
    )


def _minutes(data: Data, route: Route) -> float:
    minutes = take_number(data, route)
    if minutes <= 0:
        raise Mistake(
            route, f"A reading that counts for {minutes:g} minutes never counts. Write more than 0."
        )
    return minutes


def make_quantity(name: str, data: Map, route: Route) -> Quantity:
    """Return a kind of reading."""
    between = take_words(data, "between", route)
    if len(between) != 2:
        raise Mistake((*route, "between"), "Write two roles here, as in [hot, neutral].")
    return Quantity(
        id=name,
        says=_word(data, "says", route),
        unit=_word(data, "unit", route),
        what=_word(data, "what", route),
        between=(between[0], between[1]),
        at=maybe(take_word, data, "at", route),
        load=take_words(data, "load", route),
        breaker=maybe(take_word, data, "breaker", route),
        side=maybe(take_word, data, "side", route),
        normal=maybe(take_word, data, "normal", route),
        expects=maybe(_span, data, "expects", route),
        plausible=maybe(_span, data, "plausible", route) or (0.0, 600.0),
        small=bool(maybe(take_yes, data, "small", route)),
        floor=_floor(data, route),
    )


def make_result(name: str, data: Map, route: Route) -> Result:
    """Return least grades of a result."""
    says, unit = _word(data, "says", route), _word(data, "unit", route)
    return Result(name, says, unit, bool(maybe(take_yes, data, "small", route)), _floor(data, route))


def _floor(data: Map, route: Route) -> tuple[Cut, ...]:
    inner = (*route, "floor")
    cuts = (
        (take_map(cut, (*inner, at)), (*inner, at))
        for at, cut in enumerate(take_list(data.get("floor", []), inner))
    )
    return tuple(
        Cut(*(maybe(take_word, cut, key, at) for key in ("grade", "below", "upto"))) for cut, at in cuts
    )


def make_sign(name: str, data: Map, route: Route) -> Sign:
    """Return a sign."""
    answers = take_map(data.get("answers"), (*route, "answers"))
    return Sign(
        name,
        _word(data, "says", route),
        _word(data, "by", route),
        maybe(take_word, data, "at", route),
        {
            key: take_word(grade, (*route, "answers", key)) if grade else None
            for key, grade in answers.items()
        },
        maybe(take_word, data, "side", route),
    )


def make_state(name: str, data: Map, route: Route) -> State:
    """Return a state."""
    groups = take_map(data.get("groups", {}), (*route, "groups"))
    resets = take_map(data.get("resets", {}), (*route, "resets"))
    return State(
        name,
        _word(data, "says", route),
        take_words(data, "values", route),
        {key: take_words(groups, key, (*route, "groups")) for key in groups},
        _touched(data, route),
        {key: take_pairs(resets, key, (*route, "resets")) for key in resets},
        maybe(take_word, data, "begins", route),
    )


def _touched(data: Map, route: Route) -> dict[str, str]:
    """Return where a hand goes by value; one word stands for all."""
    if isinstance(data.get("touches", {}), dict):
        return dict(take_pairs(data, "touches", route))
    where = take_word(data["touches"], (*route, "touches"))
    return dict.fromkeys(take_words(data, "values", route), where)


def make_load(name: str, data: Map, route: Route) -> Appliance:
    """Return an appliance."""
    says, follows, source = (_word(data, key, route) for key in ("says", "follows", "source"))
    watts, starting = _span(data.get("watts", []), (*route, "watts")), maybe(_span, data, "starting", route)
    return Appliance(name, says, watts, follows, source, starting)


def make_caution(name: str, data: Map, route: Route) -> Caution:
    """Return a caution."""
    text, short, source = (_word(data, key, route) for key in ("text", "short", "source"))
    when, asked = (take_words(data, key, route) for key in ("when", "asked"))
    return Caution(name, text, short, source, when, asked)


def make_fault(name: str, data: Map, route: Route) -> Fault:
    """Return a fault."""
    return Fault(name, _word(data, "says", route))


def make_heading(name: str, data: Map, route: Route) -> Heading:
    """Return a heading of the start."""
    return Heading(name, _word(data, "says", route), take_words(data, "trees", route))
