"""Everything that is wrong with a file, at once, with places and nearest names."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from shorewalk import folders
from shorewalk.tree.check import check_site, check_written
from shorewalk.tree.site import read_site
from shorewalk.tree.source import TreeError, read_source

BAD = Path(__file__).parent / "bad"


@pytest.mark.parametrize("path", sorted(BAD.glob("*.yaml")), ids=lambda path: path.stem)
def test_all_is_told_at_once(path: Path) -> None:
    """Each bad file gives exactly the lines kept beside it: what was found, what is allowed, what to do."""
    source = read_source(path.read_bytes(), path.name)
    with pytest.raises(TreeError) as caught:
        check_written(source)
    assert f"{caught.value}\n" == path.with_suffix(".out").read_text(encoding="utf-8")


def test_shipped_facts_are_sound_and_read_alike() -> None:
    """The checker finds nothing in the shipped facts, and reads what the quick reader reads."""
    folder = folders.trees() / "site"
    assert check_site(folder) == read_site(folder)


def site_with(tmp_path: Path, file: str, old: str, new: str) -> str:
    folder = shutil.copytree(folders.trees() / "site", tmp_path / "site")
    text = (folder / file).read_text(encoding="utf-8")
    assert old in text
    (folder / file).write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(TreeError) as caught:
        check_site(folder)
    return str(caught.value)


WRONG = [
    ("limits.yaml", "kind: hazard", "kind: hazrd", '"hazrd" is not a kind of limit. Did you mean "hazard"?'),
    ("limits.yaml", 'value: "5"', 'value: "1e9"', '"1e9" is not a number'),
    ("limits.yaml", "source:", "sauce:", 'The key "sauce" is not known here. Did you mean "source"?'),
    (
        "grades.yaml",
        "below: no-voltage",
        "below: no-voltge",
        'There is no limit "no-voltge". Did you mean "no-voltage"?',
    ),
    ("grades.yaml", "between: [hot,", "between: [hut,", '"hut" is not a terminal\'s role.'),
    ("grades.yaml", "grade: stop", "grade: stopp", '"stopp" is not a grade. Did you mean "stop"?'),
    ("places.yaml", "pairs: [L1 N,", "pairs: [L9 N,", 'There is no terminal of pedestal-50 "L9".'),
    ("places.yaml", "kind: outlet", "kind: outlt", '"outlt" is not a kind of place. Did you mean "outlet"?'),
    ("signs.yaml", "by: eye", "by: eyes", '"eyes" is not a sense. Did you mean "eye"?'),
    ("states.yaml", '{shown-dead: "no"}', '{shown-dead: "nope"}', 'There is no value of shown-dead "nope".'),
    ("loads.yaml", "watts: [", 'watts: ["1", ', "watts"),
    (
        "loads.yaml",
        'watts: ["300", "350"]',
        'watts: ["1200", "350"]',
        "1200 is over 350. Write the low number first.",
    ),
    ("cautions.yaml", "when: [probe]", "when: [prob]", '"prob" is not something a caution is for.'),
    ("cautions.yaml", "asked: [smell]", "asked: [smel]", 'There is no sign "smel". Did you mean "smell"?'),
]


@pytest.mark.parametrize(("file", "old", "new", "said"), WRONG, ids=[case[2] for case in WRONG])
def test_wrong_facts_are_told(tmp_path: Path, file: str, old: str, new: str, said: str) -> None:
    """A slip in any of the shared facts is told with its file and the nearest valid word."""
    told = site_with(tmp_path, file, old, new)
    assert said in told
    assert f"/{file}:" in told
