"""Damage to endings and to words."""

from __future__ import annotations

import re

from shorewalk.tree.model import VERDICTS

from .edits import Keys, Seeds
from .file import File

NOT = re.compile(r"\b[Nn]ever\b ?|\b[Dd]o not\b ?|\bnot\b ?|\b[Nn]obody\b")
HOLDER = re.compile(r"\{([a-z_][a-z_.]*)\}")
WORDS = ("step", "ask", "says", "why", "hint", "because", "safe_action", "say", "tally")


def call_dropped(file: File) -> Seeds:
    """Nobody is called."""
    return _dropped(file, "call")


def call_swapped(file: File) -> Seeds:
    """The wrong one is called."""
    for name, node in file.of_kind("end"):
        other = {"park": "electrician", "electrician": "park"}.get(node.get("call", ""))
        if other:
            yield name, ((("nodes", name, "call"), other),)


def words_dropped(file: File) -> Seeds:
    """Nothing is said of what to do now, of the emergency services, or of when to call."""
    for key in ("safe_action", "first", "call_when"):
        for name, edits in _dropped(file, key):
            yield f"{name}: {key}", edits


def verdict_raised(file: File) -> Seeds:
    """A verdict is one step milder."""
    for name, node in file.of_kind("end"):
        at = VERDICTS.index(node["end"])
        for milder in VERDICTS[at + 1 : at + 2]:
            yield f"{name}: {milder}", ((("nodes", name, "end"), milder),)


def not_dropped(file: File) -> Seeds:
    """A "never", "not" or "nobody" is lost from a sentence."""
    for where, route, text in _texts(file):
        for at, match in enumerate(NOT.finditer(text), 1):
            instead = "everybody" if match[0].lower() == "nobody" else ""
            head, tail = text[: match.start()], instead + text[match.end() :]
            begins = not head.strip() or head.rstrip()[-1] in ".!?:;"
            yield f"{where}: {at}", ((route, head + (tail[:1].upper() + tail[1:] if begins else tail)),)


def placeholder_mistyped(file: File) -> Seeds:
    """A placeholder has a letter too many."""
    for where, route, text in _texts(file):
        for at, match in enumerate(HOLDER.finditer(text), 1):
            yield f"{where}: {at}", ((route, f"{text[: match.end() - 1]}x{text[match.end() - 1 :]}"),)


def brackets_dropped(file: File) -> Seeds:
    """Words that need a reading stand without their brackets."""
    for name, node in file.of_kind("end"):
        text = node.get("say", "")
        for at, match in enumerate(re.finditer(r"\[([^\[\]]*)\]", text), 1):
            yield (
                f"{name}: {at}",
                ((("nodes", name, "say"), text[: match.start()] + match[1] + text[match.end() :]),),
            )


def _dropped(file: File, key: str) -> Seeds:
    for name, node in file.of_kind("end"):
        if key in node:
            yield name, ((("nodes", name, key), None),)


def _texts(file: File) -> list[tuple[str, Keys, str]]:
    found: list[tuple[str, Keys, str]] = []
    for name, node in file.nodes.items():
        found += [(f"{name}: {key}", ("nodes", name, key), node[key]) for key in WORDS if key in node]
        for choice, data in node.get("choices", {}).items():
            found.append((f"{name}: {choice}", ("nodes", name, "choices", choice, "says"), data["says"]))
    return found


KINDS = (
    call_dropped,
    call_swapped,
    words_dropped,
    verdict_raised,
    not_dropped,
    placeholder_mistyped,
    brackets_dropped,
)
