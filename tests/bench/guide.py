"""The lines that the README gives for a shared account, as they stand there."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterable
from pathlib import Path

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
SECTION = README.partition("## Over ssh\n")[2].partition("\n## ")[0]
BLOCKS = re.findall(r"```text\n(.*?)```", SECTION, re.DOTALL)

KEY_LINE = re.compile(r'(?P<before>restrict,pty,command=")(?P<command>[^"]+)" ssh-ed25519 \S+ \S+')
COMMAND = re.compile(
    r"""trap '' INT; exec (?P<python>/\S+/python) -I -m shorewalk guarded (?P<person>\w+|".+")"""
)


def key_options(person: str, command: str | None = None) -> str:
    """Return what stands before a key in `authorized_keys`, for this person; or with another command in its place."""
    found = KEY_LINE.fullmatch(next(block for block in BLOCKS if "command=" in block).strip())
    assert found is not None, "the line for authorized_keys is not in the README"
    return f'{found["before"]}{command or _ours(found["command"], person)}"'


def shared_account(user: str) -> list[str]:
    """Return what stands in sshd's configuration for a shared account, with this user in its place."""
    return _block("Match User family", user)


def own_accounts(user: str, command: str | None = None) -> list[str]:
    """Return the same for accounts of their own; or with another command in its place."""
    lines = []
    for line in _block("Match Group shorewalk", user):
        name, is_forced, forced = line.partition("ForceCommand ")
        lines.append(f"{name}{is_forced}{command or _ours(forced)}" if is_forced else line)
    return lines


def silent_seconds(lines: Iterable[str]) -> int:
    """Return how many seconds a link may be silent before sshd ends it, at the most.

    OpenSSH 9.2 was measured with a client that was stopped: twice the interval for each question and once more twice
    after the last, or one interval less. One that waits as its manual says takes half as long.
    """
    interval, most = (_number(lines, name) for name in ("ClientAliveInterval", "ClientAliveCountMax"))
    return 2 * interval * (most + 1)


def hurried(lines: Iterable[str]) -> list[str]:
    """Return the same lines with a second between two questions, and as many of them."""
    return [re.sub(r"(ClientAliveInterval) \d+", r"\1 1", line) for line in lines]


def _number(lines: Iterable[str], name: str) -> int:
    (line,) = (line for line in lines if name in line)
    return int(line.split()[1])


def _ours(command: str, person: str = "") -> str:
    """Return the README's command with this Python, and with this person where one is given."""
    found = COMMAND.fullmatch(command)
    assert found is not None, f"the README's command is not as it must be: {command}"
    ours = command.replace(found["python"], sys.executable)
    return ours.replace(f"guarded {found['person']}", f"guarded {person}") if person else ours


def _block(first: str, user: str) -> list[str]:
    lines = next(block for block in BLOCKS if block.startswith(first)).splitlines()
    return [f"Match User {user}", *lines[1:]]
