"""Lines out and lines in: what plain text is spoken with."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import IO

from shorewalk.emergency import CARD
from shorewalk.exits import Exit
from shorewalk.lines import as_text, line, wrap
from shorewalk.seen import seen

LONGEST = 1_000
"""Letters of a line that are listened to."""
FEW = 8
"""Lines of a list that are said at once: what is heard cannot be skimmed."""
EMERGENCY = ("!", "emergency")
CARD_ENDS = "End of the card. It goes on where you were."
TOO_LONG = f"That line is too long: at most {LONGEST} letters are taken. Nothing of it counts."
UNSEEN = "That line holds a character that nobody can see. Nothing of it counts. Type it once more."


class Gone(Exception):  # noqa: N818 (no error: the person left, or the input ended)
    """Nobody is listening any more. `code`: what the program exits with; None where nobody said goodbye yet."""

    def __init__(self, code: Exit | None = None) -> None:
        super().__init__()
        self.code = code


Room = int | Callable[[], int]
"""Letters of a line; a window may have others by the next one."""


class Voice:
    """Says lines no wider than `room` to `out`, and listens to `given`."""

    def __init__(self, given: IO[str], out: IO[str], room: Room) -> None:
        self._given, self._out, self._room = given, out, room
        self._unheard: str | None = None

    @property
    def room(self) -> int:
        """How wide a line may be now."""
        return self._room if isinstance(self._room, int) else self._room()

    def say(self, *lines: str, before: str = "") -> None:
        """Write lines; a long one goes on indented as it began."""
        self.write(before)
        room = self.room
        for text in lines:
            inset = len(text) - len(text.lstrip())
            hang = inset + (3 if inset else 0)
            self.write(as_text(wrap(text, room, first=line(" " * inset), indent=hang)) + "\n")

    def say_in_parts(self, lines: Sequence[str], *, what: str = "more", few: int = FEW) -> None:
        """Say a list some lines at a time. Whatever is typed instead of Enter ends it, and is heard next."""
        rest = list(lines)
        while rest:
            # A last line alone is not worth a key.
            now, rest = (rest[:few], rest[few:]) if len(rest) > few + 1 else (rest, [])
            self.say(*now)
            if rest:
                self.say(f"{len(rest)} {what}. Enter: go on.")
                if typed := self.listen():
                    self._unheard = typed
                    return

    def hear_again(self, typed: str) -> None:
        """Let this line be the next that is heard."""
        self._unheard = typed

    def listen(self, after_card: str = "") -> str:
        """Return the next line that is typed; raise `Gone` where there is none.

        Whatever the question is, a call for the emergency card is answered here, and the question stands;
        `after_card` says how to hear it again.
        """
        if self._unheard is not None:
            typed, self._unheard = self._unheard, None
            return typed
        while True:
            self.write("> ")
            typed = self._line()
            shown = seen(typed)
            if not self._given.isatty():  # a terminal shows what is typed; elsewhere the transcript should
                self.write(f"{shown}\n")
            if len(typed) >= LONGEST:
                self.say(TOO_LONG)
            elif shown != typed:
                self.say(UNSEEN)
            elif typed.casefold() in EMERGENCY:
                self.say_card()
                self.say(*filter(None, [after_card]))
            else:
                return typed

    def say_card(self) -> None:
        """Say the emergency card."""
        self.say(*CARD, CARD_ENDS, before="\n")

    def _line(self) -> str:
        typed = rest = self._given.readline(LONGEST)
        if not typed:
            raise Gone
        while len(rest) == LONGEST and not rest.endswith("\n"):  # what goes on is no line of its own
            rest = self._given.readline(LONGEST)
        return typed.strip() if typed.endswith("\n") or len(typed) < LONGEST else typed

    def confirm(self, question: str, yes: str) -> bool:
        """Ask something that cannot be undone, once: 1 is `yes`, anything else is no."""
        self.say(question, f"  1. {yes}", "Enter, or anything else: no.")
        return number_in(self.listen()) == 1

    def on_a_terminal(self) -> bool:
        """Tell whether what is said goes to a terminal."""
        return self._out.isatty()

    def write(self, text: str) -> None:
        """Write as it stands."""
        self._out.write(text)
        self._out.flush()

    def write_raw(self, text: str) -> None:
        """Write what a terminal obeys: a stream that lets only text through is gone round."""
        self._out.flush()
        stream = getattr(self._out, "under", self._out)
        stream.write(text)
        stream.flush()


def number_in(typed: str) -> int | None:
    """Return the number that was typed, as `7`, `7.` or `7)`; None where it is none."""
    word = typed.rstrip(".)")
    return int(word) if word.isdecimal() and len(typed) <= len("1000") else None
