"""The way in. What is typed most starts without the weight of the command line's library."""

from __future__ import annotations

import errno
import gc
import os
import sys
from io import TextIOWrapper
from typing import Any

from .beside import end_at_once
from .exits import Exit
from .seen import Seen


def program() -> int:
    """Be the program: run the command, and end whatever still works beside it."""
    code = main()
    end_at_once(code)
    return code


def main() -> int:
    """Run the command that was typed; return what it exits with, whatever happens on the way."""
    _mend_streams()
    gc.set_threshold(100_000, 20, 20)  # starting makes objects, not garbage: looking for it costs a tenth
    try:
        code = run(sys.argv[1:])
        sys.stdout.flush()
    except KeyboardInterrupt:
        if sys.stderr.isatty():
            print(file=sys.stderr)  # the terminal has written ^C, and the prompt is to stand below it
        return Exit.UNFINISHED
    except BrokenPipeError:  # whoever read us is gone
        _drop_output()
        return Exit.UNFINISHED
    except OSError as error:
        _drop_output()
        if error.errno == errno.EIO and not error.filename:  # so is the terminal: nobody would read why
            return Exit.UNFINISHED
        where = f": {error.filename}" if error.filename else ""
        print(f"shorewalk: {error.strerror or error}{where}", file=sys.stderr)
        return Exit.UNFINISHED
    except Exception as error:  # noqa: BLE001 (one nobody thought of: a traceback helps nobody at a pedestal)
        from .went_wrong import went_wrong

        print(went_wrong(error), file=sys.stderr)
        return Exit.UNFINISHED
    return code


def run(words: list[str]) -> int:
    """Run one command."""
    if words[:1] == ["guarded"] and words[1:] not in (["--help"], ["-h"]):
        from .guard.command import run_guarded

        return run_guarded(words[1:])
    if "SHOREWALK_COMPLETE" in os.environ:  # a shell asks: subcommands/shells.py
        from .subcommands import complete_line

        return complete_line()
    options = walk_options(words)
    if options is None:
        from .subcommands import run_command

        return run_command(words)
    from .walking import Asked, open_front, told

    return told(lambda: open_front(Asked(**options)))


def walk_options(words: list[str]) -> dict[str, Any] | None:
    """Return what a bare `shorewalk` or a plain `walk` asks for; None for all else, help and mistakes included."""
    if not words:
        return {}
    at_start = words[0].startswith("-")
    options: dict[str, Any] = {}
    symptom: list[str] = []
    rest = iter(words if at_start else words[1:])
    for word in rest:
        name, given, value = word.partition("=")
        if word in ("--plain", "--aloud") or (word in ("--jsonl", "--possible") and not at_start):
            options[word[2:]] = True
        elif name in ("--meter", "--resume", "--look"):
            options[name[2:]] = value = value if given else next(rest, "")
            if not value or value.startswith("-"):
                return None
        elif word.startswith("-") or at_start:
            return None
        else:
            symptom.append(word)
    if at_start:
        return options
    if words[0] != "walk" or not (symptom or "resume" in options):
        return None
    return options | {"symptom": " ".join(symptom)}


def _mend_streams() -> None:
    """Let a stream that was closed by the caller be an empty one, and nothing but text get through it.

    The app draws past these, by `sys.__stdout__`.
    """
    sys.stdin = sys.stdin or open(os.devnull)  # noqa: PTH123, SIM115 (open for as long as the program runs)
    sys.stdout = sys.stdout or open(os.devnull, "w")  # noqa: PTH123, SIM115
    sys.stderr = sys.stderr or open(os.devnull, "w")  # noqa: PTH123, SIM115
    for stream, errors in (
        (sys.stdin, "surrogateescape"),
        (sys.stdout, "replace"),
        (sys.stderr, "replace"),
    ):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors=errors)
    if isinstance(sys.stdout, TextIOWrapper):
        sys.stdout = Seen(sys.stdout)
    if isinstance(sys.stderr, TextIOWrapper):
        sys.stderr = Seen(sys.stderr)


def _drop_output() -> None:
    """Let what is still to be written go nowhere, so that the interpreter's last flush is quiet."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
