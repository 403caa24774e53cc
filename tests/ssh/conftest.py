"""A real sshd, with the lines that the README gives."""

from __future__ import annotations

import os
import pwd
import sysconfig
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from ..bench.guide import key_options, own_accounts, shared_account
from ..bench.sshd import NoSshd, Sshd
from ..bench.terminal import Terminal

Login = Callable[..., Terminal]
PROGRAM = str(Path(sysconfig.get_path("scripts")) / "shorewalk")
USER = pwd.getpwuid(os.getuid()).pw_name


def started(folder: Path, keys: dict[str, str], lines: list[str]) -> Iterator[Sshd]:
    try:
        server = Sshd(folder, keys, lines)
    except NoSshd as reason:
        pytest.skip(str(reason))
    yield server
    server.close()


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Sshd]:
    """One key that may all, and three people with the README's line for a shared account."""
    keys = {"own": "", **{name: key_options(name) for name in ("ann", "bob", "cleo")}}
    yield from started(tmp_path_factory.mktemp("sshd"), keys, shared_account(USER))


@pytest.fixture(scope="session")
def trusting(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Sshd]:
    """One that lets every variable of a client through, and forces the command by its configuration."""
    lines = [*own_accounts(USER), "    AcceptEnv *"]
    yield from started(tmp_path_factory.mktemp("trusting"), {"own": ""}, lines)


@pytest.fixture
def login(server: Sshd) -> Iterator[Login]:
    """Log in from terminals; all are closed when the test is over, and nothing may be left of them."""
    opened: list[Terminal] = []

    def log_in(key: str, *words: str, **how: object) -> Terminal:
        opened.append(server.login(key, *words, **how))  # type: ignore[arg-type]
        return opened[-1]

    yield log_in
    for one in opened:
        one.hang_up()
    assert server.wait_until_alone() == []
