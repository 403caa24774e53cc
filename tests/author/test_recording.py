"""A walk in the preview becomes a recorded one, to which the tree is held from then on."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk.author.recording import recorded_text
from shorewalk.folders import demo_data
from shorewalk.replay import read_recorded, replay
from shorewalk.tree.library import shipped
from shorewalk.walk.walk import begin

from ..app.conftest import shown, type_line
from .conftest import Editor, Make, linted, node_of, until

WALKS = sorted((demo_data() / "walks").glob("*.yaml"))
WALKS = WALKS[:: len(WALKS) // 40]


@pytest.mark.parametrize("file", WALKS, ids=lambda file: file.stem)
def test_what_is_recorded_is_replayed_to_the_same_end(file: Path, tmp_path: Path) -> None:
    """Written down and read back, a walk has the same answers and leads to the same ending."""
    recorded = read_recorded(file)
    walk = begin(shipped(), recorded.walk, recorded.meter)
    for _, _, answer, time in recorded.answers:
        walk = walk.answer(answer, time=time)
    copy = tmp_path / "copy.yaml"
    copy.write_text(recorded_text(walk, recorded.walk, ("A copy.",)), encoding="utf-8")
    again = read_recorded(copy)
    assert (again.walk, again.meter) == (recorded.walk, recorded.meter)
    assert [answer for _, _, answer, _ in again.answers] == [answer for _, _, answer, _ in recorded.answers]
    assert {"at", "verdict", "call"} <= {name for _, name, _ in again.ends}
    assert replay(again)[1] == []


async def test_the_preview_records_a_walk_from_the_first_node(make: Make, editor: Editor) -> None:
    """`s` at the end writes a file that `replay` takes; a walk from the middle cannot be one, and says why."""
    app = make("smell")
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: linted(app))
        for _ in range(2):
            await type_line(pilot, "1")
        assert node_of(app) == "all_clean"
        await type_line(pilot, "4")
        assert "a recorded walk begins at the first node, before_you_start" in " ".join(shown(app).split())
        await type_line(pilot, "7")
        await type_line(pilot, "1")
        while app.screen.reading.more:  # type: ignore[attr-defined]
            await type_line(pilot, "")
        for _ in range(3):
            await type_line(pilot, "1")
        await type_line(pilot, "4")
    (file,) = (editor.file.parent / "walks").iterdir()
    end, problems = replay(read_recorded(file))
    assert problems == []
    assert end is not None
    assert end.at == "all_clean"
