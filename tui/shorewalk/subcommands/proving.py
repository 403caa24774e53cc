"""Proving trees: the linter, recorded walks, and the schema that editors check by."""

from __future__ import annotations

import sys
from functools import partial
from pathlib import Path

import click

from ..exits import Exit
from ..starting import Usage, narrate
from ..walking import columns
from .completing import files, rules
from .layout import Command
from .task import Task, echo


@click.command(cls=Command, short_help="Prove trees: what is wrong in them, and where.")
@click.argument("paths", nargs=-1, metavar="[PATH]...", shell_complete=files)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "sarif", "github"]),
    default="text",
    help="text for people, the others for programs and services.",
)
@click.option("--strict", is_flag=True, help="Exit 1 for warnings too.")
@click.option("--around", is_flag=True, help="Tell of everything in the folder a named file belongs to.")
@click.option(
    "--explain",
    metavar="[RULE]",
    shell_complete=rules,
    is_flag=False,
    flag_value="",
    help="Say what a rule holds, with examples; without a name, list the rules.",
)
def lint(paths: tuple[str, ...], *, form: str, strict: bool, around: bool, explain: str | None) -> Task:
    """Prove trees: what is wrong in PATHs (files or folders; the shipped trees if none), and where.

    Exits 0 when nothing is wrong, 1 with findings, 2 when it was asked wrongly, 3 when something kept it from
    looking at all.
    """
    if explain is not None:
        if paths:
            raise Usage("--explain tells of a rule and reads no files: leave the paths out.")
        return partial(_explain, explain)

    def task() -> int:
        from ..lint import BadPathError, lint_paths
        from ..lint.writing.writers import writers

        if not paths and sys.stderr.isatty():
            narrate("Proving every shipped tree; that takes a while. One of them: shorewalk lint FILE")
        try:
            report = lint_paths(paths, around=around)
        except BadPathError as error:
            raise Usage(str(error)) from None
        width = columns() if sys.stdout.isatty() else None
        echo(writers(width)[form](report), nl=False)
        for stopped in report.stopped:
            narrate(f"shorewalk: not finished: {stopped.message}")
        if report.stopped:
            narrate("All else that was named was looked at.")
        return report.exit(strict=strict)

    return task


def _explain(rule: str) -> int:
    from ..lint.writing.explain import NoSuchRuleError, explain

    try:
        echo(explain(rule, columns()), nl=False)
    except NoSuchRuleError as error:
        raise Usage(str(error)) from None
    return Exit.CLEAN


@click.command(cls=Command, short_help="Hold a tree to walks that were recorded.")
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="FILE...")
def replay(files: tuple[Path, ...]) -> Task:
    """Feed recorded answers to a tree; exit 1 where the ending is not the recorded one."""
    from ..replay import replay_files

    return partial(replay_files, files, echo, narrate)


@click.command(cls=Command, short_help="The JSON Schema of trees, or of findings.")
@click.option(
    "--of",
    type=click.Choice(["trees", "findings"]),
    default="trees",
    help="trees: what an author writes. findings: what lint --format json prints.",
)
def schema(of: str) -> Task:
    """Print the JSON Schema of trees, for editors that complete and check; or that of the linter's findings."""

    def task() -> int:
        if of == "findings":
            from ..lint.writing.as_json import schema_text
        else:
            from ..tree.schema import schema_text

        echo(schema_text(), nl=False)
        return Exit.CLEAN

    return task
