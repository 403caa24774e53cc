"""The tables of the journal, as steps from each version of them to the next.

A walk is its answers: nothing derived is kept but the ending, which must still be readable as it was told when the
trees have moved on, and what the log worked out, for as long as it would come out the same. A step that was once
released is never changed; a new need is a new step at the end.
"""

from __future__ import annotations

STEPS = (
    """
    create table walks (
        id integer primary key,
        tree text not null,
        folder text,
        meter text not null,
        begun text not null,
        changed text not null,
        ending text
    );
    create table answers (
        walk integer not null references walks (id) on delete cascade,
        n integer not null,
        tree text not null,
        at text not null,
        nth integer not null,
        answer text not null,
        time text,
        primary key (walk, n)
    ) without rowid
    """,
    # `uuid` is the same on every machine that a walk is carried to; `content` tells whether the trees have changed
    # since; `park` to `visited` are where and when, in the person's words; `resumed` is when a walk was taken up
    # again after an answer.
    """
    alter table walks add column uuid text;
    alter table walks add column content text;
    alter table walks add column park text;
    alter table walks add column site text;
    alter table walks add column outlet text;
    alter table walks add column visited text;
    alter table answers add column resumed text;
    update walks set uuid = lower(hex(randomblob(16)));
    create unique index walks_by_uuid on walks (uuid)
    """,
    # Which walk was answered last is counted, for a clock can be set back.
    "alter table walks add column turn integer not null default 0",
    # Who put a walk where it is: `said` of this one, `handed` with it from another machine; null where it was taken
    # over from the walk before.
    "alter table walks add column placed text",
    # What was worked out from the answers of a walk as it stood at a `turn`, and by what they were understood then.
    """
    create table worked_out (
        walk integer primary key references walks (id) on delete cascade,
        turn integer not null,
        understood_by text not null,
        data blob not null
    )
    """,
)
"""SQL that leads from version 0 (an empty file) to 1, from 1 to 2, and so on."""

VERSION = len(STEPS)
"""What the file says its tables are, in SQLite's `user_version`."""
