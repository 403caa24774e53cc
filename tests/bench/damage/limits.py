"""Damage to limits: another of the same unit, or the other side of it."""

from __future__ import annotations

from .edits import Edit, Keys, Seeds
from .file import File


def limit_replaced(file: File) -> Seeds:
    """A band or a row cuts at the nearest other limit of the same unit."""
    for where, route, name in _cuts(file):
        limit = file.site.limits.get(name)
        others = [
            other
            for other in file.site.limits.values()
            if limit and other.unit == limit.unit and other.value != limit.value
        ]
        for near in sorted(others, key=lambda other: abs(other.value - limit.value) if limit else 0)[:1]:
            yield f"{where}: {near.id}", ((route, near.id),)


def cut_turned(file: File) -> Seeds:
    """A row asks for the other side of a limit."""
    turned = {"from": "below", "below": "from", "above": "upto", "upto": "above"}
    for name, node in file.of_kind("judge"):
        for at, row in enumerate(node["judge"]):
            for asked, span in row.get("when", {}).items():
                if isinstance(span, dict) and len(span) == 1:
                    ((key, limit),) = span.items()
                    edit: Edit = (("nodes", name, "judge", at, "when", asked), {turned[key]: limit})
                    yield f"{name}: row {at + 1} {asked}", (edit,)


def _cuts(file: File) -> list[tuple[str, Keys, str]]:
    found: list[tuple[str, Keys, str]] = []
    for name, node in file.nodes.items():
        for at, band in enumerate(node.get("bands", ())):
            found += [
                (f"{name}: band {at + 1}", ("nodes", name, "bands", at, key), band[key])
                for key in ("below", "upto")
                if key in band
            ]
        for at, row in enumerate(node.get("judge", ())):
            for asked, span in row.get("when", {}).items():
                if isinstance(span, dict):
                    route: Keys = ("nodes", name, "judge", at, "when", asked)
                    where = f"{name}: row {at + 1} {asked}"
                    found += [(f"{where} {key}", (*route, key), limit) for key, limit in span.items()]
    return found


KINDS = (
    limit_replaced,
    cut_turned,
)
