"""An sshd of our own on the loopback: own keys, own configuration, a free port, run by whoever runs the tests."""

from __future__ import annotations

import os
import pwd
import shutil
import signal
import socket
import subprocess
import sysconfig
import threading
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from .processes import ancestor_of, marked, wait_for_end
from .terminal import PATIENCE, Terminal

PLACES = "/usr/sbin:/usr/local/sbin:/sbin"
LISTENS = "Server listening on"
MARK = "SHOREWALK_TEST_LOGIN"
"""Stands in the environment of whatever a login starts: what is left behind is known by it."""
TRIES = 5
REFUSED = 255
"""What ssh itself exits with."""


class NoSshd(Exception):  # noqa: N818 (a reason to skip)
    """There is no sshd that could be logged in to here, and why."""


class Sshd:
    """See the module. `lines` are added to its configuration; `keys` says how each line of authorized keys begins."""

    def __init__(self, folder: Path, keys: Mapping[str, str], lines: Iterable[str] = ()) -> None:
        self.folder, self.user = folder, pwd.getpwuid(os.getuid()).pw_name
        self.account = folder / "account"
        """The account's own folder, not that of whoever runs the tests."""
        self.walks = self.account / ".local" / "share" / "shorewalk"
        self._lines = [*lines]
        self._program = _found("sshd", PLACES)
        for folder_ in (folder, self.account):
            folder_.mkdir(parents=True, exist_ok=True)
        self._make_key("host")
        for name in keys:
            self._make_key(name)
        (folder / "authorized_keys").write_text(
            "".join(f"{before} {self._public(name)}".lstrip() + "\n" for name, before in keys.items())
        )
        self._start()
        # An ordinary user's sshd may hand out no terminals: where they are not of the group tty by themselves.
        probe = subprocess.run(
            [*self.ssh(next(iter(keys)), "-tt"), "exit"],
            stdin=subprocess.DEVNULL,
            capture_output=True,
            check=False,
        )
        if probe.returncode == REFUSED:
            self.close()
            raise NoSshd(f"nobody can log in to sshd here with a terminal: {self.log}")

    def ssh(self, key: str, *options: str) -> list[str]:
        """Return the command that logs in with this key; what is asked for follows it."""
        known = {
            "IdentityFile": self.folder / key,
            "IdentitiesOnly": "yes",
            "IdentityAgent": "none",
            "UserKnownHostsFile": self.folder / "known_hosts",
            "GlobalKnownHostsFile": "none",
            "StrictHostKeyChecking": "yes",
            "BatchMode": "yes",
            "LogLevel": "ERROR",
            "ControlPath": "none",
        }
        said = [word for name, value in known.items() for word in ("-o", f"{name}={value}")]
        said += ["-o", f"Port={self.port}"]
        return ["ssh", "-F", "none", *said, *options, f"{self.user}@127.0.0.1"]

    def scp(self, key: str, *options: str) -> list[str]:
        """Return the command that copies files with this key, the host last."""
        return ["scp", *self.ssh(key, *options)[1:]]

    def login(
        self,
        key: str,
        *words: str,
        options: Iterable[str] = ("-tt",),
        columns: int = 80,
        rows: int = 24,
        term: str = "xterm-256color",
    ) -> Terminal:
        """Log in from a terminal of this size, and ask for `words`."""
        through = self.ssh(key, *options)
        return Terminal(
            *words, columns=columns, rows=rows, home=self.folder / "client", term=term, through=through
        )

    def run(self, key: str, *words: str, given: str = "") -> subprocess.CompletedProcess[str]:
        """Ask for `words` without a terminal; return what came of it."""
        return subprocess.run(
            [*self.ssh(key), *words],
            input=given,
            capture_output=True,
            text=True,
            check=False,
            timeout=PATIENCE * 3,
        )

    def started(self) -> list[int]:
        """Return the processes that logins have started and that are there now, the oldest first."""
        return marked(f"{MARK}={self.port}")

    def wait_until_alone(self, patience: float = PATIENCE) -> list[int]:
        """Wait until nothing is left of any login; return what still is when patience ends."""
        for process in self.started():
            wait_for_end(process, patience)
        return self.started()

    def session_of(self, process: int) -> int:
        """Return the sshd that a process of a login belongs to."""
        return ancestor_of(process, ("sshd", "sshd-session"))

    @property
    def log(self) -> str:
        """What sshd said."""
        return "".join(self._said)

    def close(self) -> None:
        """End sshd and whatever its logins left."""
        for process in self.started():
            with suppress(OSError):
                os.kill(process, signal.SIGKILL)
        self._sshd.terminate()
        self._sshd.wait()
        self._reader.join()
        if self._sshd.stderr:
            self._sshd.stderr.close()

    def _start(self) -> None:
        if os.getuid() == 0:  # where it puts those who are not logged in yet
            Path("/run/sshd").mkdir(mode=0o755, exist_ok=True)
        for _ in range(TRIES):  # somebody else may take the port between asking for one and using it
            with socket.socket() as asked:
                asked.bind(("127.0.0.1", 0))
                self.port = asked.getsockname()[1]
            if self._listens():
                (self.folder / "known_hosts").write_text(f"[127.0.0.1]:{self.port} {self._public('host')}\n")
                return
        raise NoSshd(f"sshd does not start here: {self.log}")

    def _listens(self) -> bool:
        (self.folder / "sshd_config").write_text("\n".join([*self._own_lines(), *self._lines, ""]))
        self._sshd = subprocess.Popen(
            [self._program, "-D", "-e", "-f", str(self.folder / "sshd_config")],
            stderr=subprocess.PIPE,
            stdin=subprocess.DEVNULL,
            text=True,
            errors="replace",
        )
        self._said: list[str] = []
        listens = threading.Event()
        self._reader = threading.Thread(target=self._listen_to, args=(listens,), daemon=True)
        self._reader.start()
        listens.wait(PATIENCE)
        return LISTENS in self.log

    def _listen_to(self, listens: threading.Event) -> None:
        assert self._sshd.stderr is not None
        for line in self._sshd.stderr:
            self._said.append(line)
            if LISTENS in line:
                listens.set()
        listens.set()  # it has ended

    def _own_lines(self) -> list[str]:
        scripts = sysconfig.get_path("scripts")
        environment = {
            "HOME": self.account,
            "PATH": f"{scripts}:/usr/local/bin:/usr/bin:/bin",
            MARK: self.port,
        }
        # Without what the tests themselves were told, where it decides which package is looked at.
        environment |= {name: os.environ[name] for name in ("PYTHONPATH",) if name in os.environ}
        return [
            "ListenAddress 127.0.0.1",
            f"Port {self.port}",
            f"HostKey {self.folder / 'host'}",
            f"AuthorizedKeysFile {self.folder / 'authorized_keys'}",
            "PidFile none",
            "StrictModes no",
            "UsePAM no",
            "PasswordAuthentication no",
            "KbdInteractiveAuthentication no",
            "PrintMotd no",
            "PrintLastLog no",
            "Subsystem sftp internal-sftp",
            "SetEnv " + " ".join(f'"{name}={value}"' for name, value in environment.items()),
        ]

    def _make_key(self, name: str) -> None:
        keygen = _found("ssh-keygen")
        subprocess.run(
            [keygen, "-q", "-t", "ed25519", "-N", "", "-C", name, "-f", str(self.folder / name)], check=True
        )

    def _public(self, name: str) -> str:
        return (self.folder / f"{name}.pub").read_text().strip()


def _found(program: str, also: str = "") -> str:
    path = shutil.which(program, path=f"{os.environ.get('PATH', '')}:{also}")
    if path is None or shutil.which("ssh") is None:
        raise NoSshd(f"there is no {program} or no ssh here")
    return path
