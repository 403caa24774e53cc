"""Making another input of one or two that are there: bytes, words and lines changed, moved, doubled, cut."""

from __future__ import annotations

import re
from collections.abc import Sequence
from random import Random

WORD = re.compile(rb"[A-Za-z0-9_.-]+")
UNSEEN = tuple("\u202e \u200b \ufeff \x1b[2J \x00 \x7f \u2028 \u0085".encode().split(b" "))
TOKENS: tuple[bytes, ...] = (
    *(
        b": ",
        b"- ",
        b"{",
        b"}",
        b"[",
        b"]",
        b"#",
        b"&a ",
        b"*a",
        b"!x ",
        b"|",
        b">",
        b"'",
        b'"',
        b"\\",
        b"<<: ",
    ),
    *(
        b"\t",
        b"\r",
        b"\n",
        b"\n  ",
        b"\xff",
        b"\xe2\x80",
        b"---\n",
        b"...\n",
        b"%YAML 1.1\n",
        b"? ",
        b"$",
        b"{x}",
    ),
    *(b"-0", b"1e999", b"0.0", b"999999999999", b"NaN", b"null", b"true", b"\xd9\xa3", b"x" * 300, b"[" * 60),
    *UNSEEN,
)
"""What is put in: marks of YAML and JSON, numbers at their ends, what cannot be seen, what is no text."""


def mutated(
    data: bytes, others: Sequence[bytes], tokens: Sequence[bytes], random: Random, *, fine: bool = False
) -> bytes:
    """Return another input; `fine`: one word is mostly another word of it, and the rest stays sound."""
    if fine and random.random() < 0.8:
        return _other_word(data, random)
    for _ in range(random.choice((1, 1, 1, 2, 3, 6))):
        ways = (_in_bytes, _in_words, _in_lines)
        data = random.choices(ways, (3, 4, 3))[0](data, others, tokens, random)
    return data[:200_000]


def _in_bytes(data: bytes, others: Sequence[bytes], tokens: Sequence[bytes], random: Random) -> bytes:
    at = random.randrange(len(data) + 1)
    end = min(len(data), at + random.choice((1, 1, 2, 8, 64)))
    match random.randrange(6):
        case 0:
            return data[:at] + data[end:]
        case 1:
            return data[:at] + random.randbytes(random.choice((1, 1, 4))) + data[end:]
        case 2:
            return data[:at] + data[at:end] * random.choice((2, 2, 50)) + data[end:]
        case 3:
            return data[:at]
        case 4:
            other = random.choice(others)
            return data[:at] + other[random.randrange(len(other) + 1) :]
    return data[:at] + random.choice(tokens) + data[at:]


def _in_words(data: bytes, others: Sequence[bytes], tokens: Sequence[bytes], random: Random) -> bytes:
    del others
    words = list(WORD.finditer(data))
    if not words:
        return data + random.choice(tokens)
    word, other = random.choice(words), random.choice(words)
    new = random.choice((other[0], other[0], random.choice(tokens), b"", word[0] + other[0]))
    return data[: word.start()] + new + data[word.end() :]


def _other_word(data: bytes, random: Random) -> bytes:
    """Return an input in which one or two words are words that stand elsewhere in it."""
    for _ in range(random.choice((1, 1, 2))):
        words = list(WORD.finditer(data))
        if len(words) > 1:
            word, other = random.choice(words), random.choice(words)
            data = data[: word.start()] + other[0] + data[word.end() :]
    return data


def _in_lines(data: bytes, others: Sequence[bytes], tokens: Sequence[bytes], random: Random) -> bytes:
    del tokens
    lines = data.split(b"\n")
    at, other = random.randrange(len(lines)), random.randrange(len(lines))
    match random.randrange(6):
        case 0:
            del lines[at]
        case 1:
            lines.insert(at, lines[other])
        case 2:
            lines[at], lines[other] = lines[other], lines[at]
        case 3:
            lines[at] = b" " * random.randrange(6) + lines[at].lstrip()
        case 4:
            lines.insert(at, random.choice(random.choice(others).split(b"\n")))
        case _:
            lines[at : at + 5] = lines[at : at + 5] * random.choice((2, 30))
    return b"\n".join(lines)
