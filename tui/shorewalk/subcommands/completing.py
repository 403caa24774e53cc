"""What a shell may complete a word to: names of trees, sites, sums, rules and walks; else files.

Each function is one of the library's `shell_complete`: it gets the context so far and the beginning of a word.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

import click
from click.shell_completion import CompletionItem

from ..folders import demo_data
from ..looks import LOOKS
from ..walk.meter import PROFILES, SHOWS

Items = list[CompletionItem]
Pairs = Iterable[tuple[str, str]]
FILE, FOLDER, BEGUN = "file", "dir", "begun"
"""What an item is beside a whole word: any file, any folder, a word that goes on without a blank."""
HARMLESS = re.compile(r"[\w.:-]+")
"""A name that no shell takes for anything else, however it is put on the line."""
METERS = tuple(f"{name}{ending}" for name in PROFILES for ending in ("", *(f",{shows}" for shows in SHOWS)))
"""The meters that have a name."""


def files(ctx: click.Context, param: click.Parameter, begun: str) -> Items:
    """Offer files."""
    del ctx, param
    return [CompletionItem(begun, type=FILE)]


def folders(ctx: click.Context, param: click.Parameter, begun: str) -> Items:
    """Offer folders."""
    del ctx, param
    return [CompletionItem(begun, type=FOLDER)]


def trees(ctx: click.Context, param: click.Parameter, begun: str) -> Items:
    """Offer the shipped trees, and files."""
    from ..tree.library import shipped

    names = shipped().names()
    found = _matching(
        ((name, shipped().header(name).symptom) for name in names if name.startswith(begun)), begun
    )
    return [*found, *files(ctx, param, begun)]


def looks(ctx: click.Context, param: click.Parameter, begun: str) -> Items:
    """Offer the looks, each with what it is."""
    del ctx, param
    return _matching(LOOKS.items(), begun)


def sites(ctx: click.Context, param: click.Parameter, begun: str) -> Items:
    """Offer the sites to practise at."""
    del ctx, param
    from ..tree.source import read_bytes, read_source

    # The file as it is: what makes a pedestal of it loads the arithmetic of circuits, which takes its time.
    file = demo_data() / "pedestals" / "sites.yaml"
    named = read_source(read_bytes(file), str(file)).data.items()
    says = [(name, str(site["says"])) for name, site in named if isinstance(site, dict)]
    return _matching([*says, ("surprise", "A site that nobody knows")], begun)


def sums(ctx: click.Context, param: click.Parameter, begun: str) -> Items:
    """Offer what `calc` works out."""
    del ctx, param
    from ..calc.catalog import CALCULATIONS

    return _matching(((each.name, each.says) for each in CALCULATIONS.values()), begun)


def numbers(ctx: click.Context, param: click.Parameter, begun: str) -> Items:
    """Offer what a sum still takes, as `name=`; after that, what may be chosen."""
    del param
    from ..calc.catalog import CALCULATIONS
    from ..calc.given import METER

    if (calculation := CALCULATIONS.get(ctx.params.get("name") or "")) is None:
        return []
    name, given, _ = begun.partition("=")
    words = {each.name: each.choices for each in calculation.inputs}
    says = {each.name: each.says for each in calculation.inputs}
    if calculation.by_meter:
        words[METER], says[METER] = METERS, "how exact the meter is"
    if given:
        return _matching(((f"{name}={word}", "") for word in words.get(name, ())), begun)
    typed = {word.partition("=")[0] for word in ctx.params.get("values") or ()}
    left = [(f"{word}=", says[word]) for word in words if word not in typed]
    return _matching(left, begun, BEGUN)


def meters(ctx: click.Context, param: click.Parameter, begun: str) -> Items:
    """Offer the meters that have a name."""
    del ctx, param
    return _matching(((meter, "") for meter in METERS), begun)


def rules(ctx: click.Context, param: click.Parameter, begun: str) -> Items:
    """Offer the linter's rules."""
    del ctx, param
    from ..lint.writing.explain import KNOWN

    return _matching(((rule.id, rule.summary) for rule in KNOWN), begun)


def unfinished(ctx: click.Context, param: click.Parameter, begun: str) -> Items:
    """Offer the walks that can go on."""
    del ctx, param
    return _matching(_walks("", over=False), begun)


def kept(ctx: click.Context, param: click.Parameter, begun: str) -> Items:
    """Offer every walk by its number."""
    del ctx, param
    return _matching(_walks("", over=True), begun)


def logged(ctx: click.Context, param: click.Parameter, begun: str) -> Items:
    """Offer every walk of the log, and the sites whose names mean nothing to any shell."""
    del ctx, param
    from ..journal.glancing import glance

    names = {f"site:{entry.site}": entry.park or "" for entry in glance() if entry.site}
    return _matching(
        [*_walks("walk:", over=True), *((n, p) for n, p in names.items() if HARMLESS.fullmatch(n))], begun
    )


def commands(ctx: click.Context, param: click.Parameter, begun: str) -> Items:
    """Offer the commands."""
    del param
    group = ctx.find_root().command
    found = group.commands.values() if isinstance(group, click.Group) else ()
    return _matching(((each.name or "", each.short_help or "") for each in found), begun)


def _walks(before: str, *, over: bool) -> list[tuple[str, str]]:
    from ..journal.glancing import glance

    entries = [entry for entry in glance() if over or entry.ending is None]
    last = [("last", f"{entries[0].tree}, the latest")] if entries else []
    return last + [(f"{before}{entry.id}", f"{entry.tree}, {entry.changed[:10]}") for entry in entries]


def _matching(pairs: Pairs, begun: str, kind: str = "plain") -> Items:
    return [
        CompletionItem(word, type=kind, help=says or None) for word, says in pairs if word.startswith(begun)
    ]
