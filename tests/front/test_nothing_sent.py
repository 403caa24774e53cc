"""What somebody typed stays on the machine: the program asks for no network and starts no other program."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from shorewalk.folders import demo_data
from shorewalk.recorded import read_recorded
from shorewalk.walk.answers import to_json

GUARD = """
import sys

FORBIDDEN = (
    "socket.connect", "socket.bind", "socket.sendto", "socket.sendmsg", "socket.getaddrinfo", "socket.gethostby",
    "subprocess.Popen", "os.system", "os.exec", "os.posix_spawn", "os.fork", "webbrowser.open", "urllib.Request",
    "http.client", "smtplib", "ftplib",
)

def guard(event, about):
    if event.startswith(FORBIDDEN):
        raise SystemExit(f"asked for {event} {about}")

sys.addaudithook(guard)
"""
COMMAND = """
from shorewalk.cli import main
sys.exit(main())
"""
SCREEN = """
import asyncio
from shorewalk.app import ShorewalkApp
from shorewalk.recorded import read_recorded
from shorewalk.walk.walk import begin
from shorewalk.tree.library import shipped

async def use(file):
    recorded = read_recorded(file)
    walk = begin(shipped(), recorded.walk, recorded.meter)
    for _, _, answer, time in recorded.answers:
        walk = walk.answer(answer, time)
    app = ShorewalkApp(walk)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("s", "y")
        await app.workers.wait_for_complete()
        await pilot.press("c")
        await pilot.pause()
        print(app.clipboard)

from pathlib import Path
asyncio.run(use(Path(sys.argv[1])))
"""
FILE = demo_data() / "walks" / "voltage-high-leg-rises-far.yaml"


def run(home: Path, script: str, *words: str, given: str = "") -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", GUARD + script, *words],
        input=given,
        capture_output=True,
        text=True,
        check=False,
        cwd=home,
        env={**os.environ, "SHOREWALK_HOME": str(home), "HOME": str(home)},
    )


@pytest.mark.parametrize(
    "forbidden",
    ["import socket; socket.create_connection(('127.0.0.1', 9))", "import os; os.system('true')"],
)
def test_the_guard_sees_what_it_is_for(tmp_path: Path, forbidden: str) -> None:
    """A program that asked for the network, or for another program, would be ended by the guard."""
    ended = run(tmp_path, forbidden)
    assert ended.returncode == 1
    assert ended.stderr.startswith("asked for ")


def test_walking_and_handing_out_send_nothing(tmp_path: Path) -> None:
    """A walk, its message, its record and the page to print come about without the network."""
    answers = [to_json(answer) for _, _, answer, _ in read_recorded(FILE).answers]
    walked = run(
        tmp_path, COMMAND, "walk", "voltage-high", "--jsonl", given="\n".join(map(json.dumps, answers))
    )
    assert walked.returncode == 0, walked.stderr
    said = json.loads(walked.stdout.splitlines()[-1])["end"]["say"]
    message = run(tmp_path, COMMAND, "log", "last", "--message", "park")
    assert (message.returncode, message.stdout) == (0, said + "\n"), message.stderr
    page = run(tmp_path, COMMAND, "log", "last", "--pdf", "record.pdf")
    assert page.returncode == 0, page.stderr
    assert (tmp_path / "record.pdf").read_bytes().startswith(b"%PDF-")


def test_the_end_of_a_walk_sends_nothing(tmp_path: Path) -> None:
    """Saving, copying and the code at the end of a walk in the app stay in the terminal and in files."""
    ended = run(tmp_path, SCREEN, str(FILE))
    assert ended.returncode == 0, ended.stderr
    assert "Please check the neutral" in ended.stdout
    assert len(list(tmp_path.glob("shorewalk-voltage-high-*.pdf"))) == 1
