"""The lines that the README gives for a shared account, as they stand there."""

from __future__ import annotations

import re
from pathlib import Path

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
SECTION = README.partition("## Over ssh\n")[2].partition("\n## ")[0]
BLOCKS = re.findall(r"```text\n(.*?)```", SECTION, re.DOTALL)

KEY_LINE = re.compile(
    r'(?P<options>restrict,pty,command="(?P<program>\S+) (?P<words>[^"]+)") ssh-ed25519 \S+ \S+'
)


def key_options(program: str, person: str) -> str:
    """Return what stands before a key in `authorized_keys`, with this program and person in their places."""
    found = KEY_LINE.fullmatch(next(block for block in BLOCKS if "command=" in block).strip())
    assert found is not None, "the line for authorized_keys is not in the README"
    assert found["words"] == "guarded ann"
    return found["options"].replace(found["program"], program).replace("guarded ann", f"guarded {person}")


def shared_account(user: str) -> list[str]:
    """Return what stands in sshd's configuration for a shared account, with this user in its place."""
    return _block("Match User family", user)


def own_accounts(program: str, user: str) -> list[str]:
    """Return the same for accounts of their own."""
    lines = _block("Match Group shorewalk", user)
    return [line.replace("/usr/local/bin/shorewalk", program) for line in lines]


def _block(first: str, user: str) -> list[str]:
    lines = next(block for block in BLOCKS if block.startswith(first)).splitlines()
    return [f"Match User {user}", *lines[1:]]
