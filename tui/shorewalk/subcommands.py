"""The commands as a person types them. Each hands over to a front end; nothing is decided here."""

from __future__ import annotations

import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any, Literal

import click

from . import __version__
from .exits import Exit
from .listing import names_by_heading, whole_list
from .sections import sections_of
from .starting import Usage, confirmed, find, narrate
from .tree.library import shipped
from .walking import Asked, columns, open_front, told

HELP = """\
Stand at the pedestal, say what is wrong, answer one question at a time.

\b
  shorewalk                    begin: it asks what is wrong
  shorewalk walk zap           go straight to it, in your own words
  shorewalk walk --plain WORD  plain sentences, for screen readers

Somebody hurt, or something burning? Touch nobody who is in contact. Call the
emergency number first (911 in the US and Canada).
"""


class Commands(click.Group):
    """Says how to walk a tree where a symptom was typed in the place of a command, and which there are."""

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Name the trees below the commands."""
        del ctx
        with formatter.section("What it can walk"):
            formatter.write_dl(names_by_heading(sections_of(shipped())))

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and args[0] not in self.commands and not args[0].startswith("-"):
            raise Usage(
                f'There is no command "{args[0]}". A symptom goes after walk: shorewalk walk {args[0]}'
            )
        return super().resolve_command(ctx, args)


class Walk(click.Command):
    """Lists the trees with their symptoms below its options."""

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the trees."""
        del ctx
        formatter.write("\n" + "\n".join(whole_list(sections_of(shipped()))) + "\n")


Task = Callable[[], int]
"""What a command line comes to. It runs when the parser, which has its own exit codes, has let go."""


def echo(message: str | bytes, *, nl: bool = True) -> None:
    """Print to `sys.stdout` as it stands, by which only what can be seen gets out; the library looks for others."""
    click.echo(message, file=sys.stdout, nl=nl)


def run_command(words: list[str]) -> int:
    """Run what was typed; return what to exit with."""
    return told(partial(_run, words))


def _run(words: list[str]) -> int:
    try:
        task = shorewalk.main(words, prog_name="shorewalk", standalone_mode=False)
    except click.ClickException as error:
        error.show(file=sys.stderr)
        return Exit.USAGE
    return task() if callable(task) else Exit.CLEAN  # help and version come to no task


@click.group(
    cls=Commands,
    invoke_without_command=True,
    help=HELP,
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.version_option(__version__, prog_name="shorewalk")
@click.pass_context
def shorewalk(ctx: click.Context) -> Task | None:
    """Open the app where no command is named."""
    return partial(open_front, Asked()) if ctx.invoked_subcommand is None else None


@shorewalk.command(cls=Walk)
@click.argument("symptom", nargs=-1)
@click.option("--plain", is_flag=True, help="Plain sentences, one question at a time.")
@click.option("--jsonl", is_flag=True, help="JSON lines on stdin and stdout, for programs.")
@click.option("--possible", is_flag=True, help="With --jsonl: after each reading, what it rules out.")
@click.option("--aloud", is_flag=True, help="Questions in two lines: one reads them aloud, the other types.")
@click.option("--meter", metavar="METER", help="basic, good, or P%+C[,tenths] as its maker states it.")
@click.option("--resume", metavar="ID", help="Go on with a walk that was left: its number, or last.")
def walk(
    symptom: tuple[str, ...],
    *,
    plain: bool,
    jsonl: bool,
    possible: bool,
    aloud: bool,
    meter: str | None,
    resume: str | None,
) -> Task:
    """Walk one tree: SYMPTOM is its name, or words for what is wrong."""
    words = " ".join(symptom)
    if not words and not resume:
        find(words)  # which says what there is to name
    return partial(open_front, Asked(words, meter, resume, plain, jsonl, aloud, possible))


@shorewalk.command("hand-over")
@click.argument("number", metavar="WALK")
@click.argument("file", required=False)
def hand_over(number: str, file: str | None) -> Task:
    """Hand a walk over to another machine: WALK is its number, or last. FILE is new; - for the output.

    Whoever has the file takes the walk over with: shorewalk take-over FILE
    """

    def task() -> int:
        from .carrying import hand_over_walk

        return hand_over_walk(number, file, echo)

    return task


@shorewalk.command("take-over")
@click.argument("file")
@click.option(
    "--trees",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Where its trees are, if they are not the ones that come with shorewalk.",
)
@click.option("--plain", is_flag=True, help="Go on in plain sentences.")
@click.option("--aloud", is_flag=True, help="Go on with questions in two lines, read aloud.")
@click.option("--only", is_flag=True, help="Take it over, and do not go on yet.")
def take_over(file: str, *, trees: Path | None, plain: bool, aloud: bool, only: bool) -> Task:
    """Take over a walk that was begun elsewhere, from its FILE (- for the input), and go on with it.

    Exits 3 where the file is not taken: it was damaged, or is no such file. Then nothing has changed.
    """

    def task() -> int:
        from .carrying import Taking, take_over_file

        return take_over_file(Taking(file, trees, plain, aloud, only), echo)

    return task


@shorewalk.command()
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="FILE...")
def replay(files: tuple[Path, ...]) -> Task:
    """Feed recorded answers to a tree; exit 1 where the ending is not the recorded one."""
    from .replay import replay_files

    return partial(replay_files, files, echo, narrate)


@shorewalk.command()
@click.argument("paths", nargs=-1, metavar="[PATH]...")
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
        from .lint import BadPathError, lint_paths
        from .lint.writers import writers

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
    from .lint.explain import NoSuchRuleError, explain

    try:
        echo(explain(rule, columns()), nl=False)
    except NoSuchRuleError as error:
        raise Usage(str(error)) from None
    return Exit.CLEAN


@shorewalk.command()
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
            from .lint.as_json import schema_text
        else:
            from .tree.schema import schema_text

        echo(schema_text(), nl=False)
        return Exit.CLEAN

    return task


@shorewalk.command()
@click.argument("name")
@click.argument("folder", default=".", type=click.Path(path_type=Path))
@click.option("--part", is_flag=True, help="A part, which several trees may put in.")
def new(name: str, folder: Path, *, part: bool) -> Task:
    """Write a small sound tree to begin with: NAME.yaml, in FOLDER."""

    def task() -> int:
        from .author.new import NotWritten, write_new

        try:
            echo(write_new(name, folder, part=part).told)
        except NotWritten as error:
            raise Usage(str(error)) from None
        return Exit.CLEAN

    return task


@shorewalk.command()
@click.argument("file")
@click.option("--node", metavar="NODE", help="Walk from this node at once.")
def preview(file: str, node: str | None) -> Task:
    """Show a tree while you write it: outline, findings, a walk from any node; read again on every save."""

    def task() -> int:
        from .previewing import preview_file

        return preview_file(file, node)

    return task


@shorewalk.command()
@click.argument("tree", nargs=-1)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "mermaid", "dot", "svg"]),
    default="text",
    help="Text art for the terminal, or a file for other programs.",
)
@click.option("--node", metavar="NODE", help="Begin at this node.")
@click.option("--depth", type=click.IntRange(0), metavar="N", help="Go only so many ways deep.")
@click.option("--parts", type=click.Choice(["open", "closed"]), help="Draw inside parts; closed if not said.")
@click.option(
    "--width", type=click.IntRange(40, 200), metavar="CELLS", help="Width of text, if not the window's."
)
@click.option("--out", type=click.Path(path_type=Path), metavar="FILE", help="Write it to this file.")
def draw(
    tree: tuple[str, ...],
    *,
    form: str,
    node: str | None,
    depth: int | None,
    parts: str | None,
    width: int | None,
    out: Path | None,
) -> Task:
    """Draw a tree: every node and every way, here or for a page.

    TREE is its name, words for what is wrong, the name of a part, or a file.
    """

    def task() -> int:
        from .author.draw.run import Options, draw

        options = Options(form, node, depth, None if parts is None else parts == "open", width, out)
        return draw(" ".join(tree), options, partial(echo, nl=False), narrate)

    return task


@shorewalk.command("print")
@click.argument("tree", nargs=-1)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "markdown", "pdf"]),
    help="If not said: by the name of FILE, else text.",
)
@click.option("--to", type=click.Path(path_type=Path, dir_okay=False), metavar="FILE", help="Write it here.")
@click.option("--paper", type=click.Choice(["letter", "a4"]), default="letter", help="Size of a PDF's pages.")
@click.option("--width", type=click.IntRange(40, 200), default=72, metavar="CELLS", help="Width of text.")
def print_(
    tree: tuple[str, ...], *, form: str | None, to: Path | None, paper: Literal["letter", "a4"], width: int
) -> Task:
    """Print a tree as a numbered checklist, for when there is no computer.

    TREE is its name, words for what is wrong, or a file.
    """

    def task() -> int:
        from datetime import datetime

        from .printing.run import Options, print_tree

        options = Options(datetime.now().astimezone(), form, to, paper, width)
        return print_tree(" ".join(tree), options, partial(echo, nl=False), narrate)

    return task


@shorewalk.command()
@click.argument("site", required=False)
@click.option("--seed", type=int, metavar="N", help="The same number, the same pedestal.")
@click.option("--plain", is_flag=True, help="Plain sentences, one question at a time.")
def practice(site: str | None, *, seed: int | None, plain: bool) -> Task:
    """Practise at a make-believe pedestal with a hidden fault; without SITE, say which there are."""

    def task() -> int:
        from .practising import practise

        return practise(site, seed, echo, plain=plain)

    return task


@shorewalk.command()
@click.argument("tree", default="arrival")
@click.option(
    "--variants", type=click.IntRange(1, 10_000), default=4, metavar="N", help="Of each fault, each outlet."
)
@click.option("--seed", type=int, default=1, metavar="N", help="Another number, other variants.")
@click.option("--meter", metavar="METER", default="basic,tenths", help="basic, good, or P%+C[,tenths].")
@click.option(
    "--without",
    multiple=True,
    type=click.Choice(["peg", "protector", "detector", "load"]),
    help="What whoever walks does not have; may be given more than once.",
)
@click.option(
    "--faults",
    type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE",
    help="Other faults than ours.",
)
@click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", help="For people or programs."
)
def trial(
    tree: str,
    *,
    variants: int,
    seed: int,
    meter: str,
    without: tuple[str, ...],
    faults: Path | None,
    form: str,
) -> Task:
    """Try TREE on make-believe pedestals: every fault, many variants, each walked to its end.

    Exits 1 where somebody was let into use under a danger that the ending does not name.
    """

    def task() -> int:
        from .trying import Wanted, tell_trial

        wanted = Wanted(tree, variants, seed, meter, frozenset(without), faults, form)
        try:
            return tell_trial(wanted, echo)
        except ValueError as error:
            raise Usage(str(error)) from None

    return task


@shorewalk.command()
@click.argument("names", nargs=-1, metavar="[TREE|FILE|FOLDER]...")
@click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", help="For people or programs."
)
@click.option("--meter", metavar="METER", default="basic", help="basic, good, or P%+C[,tenths].")
@click.option(
    "--walks", type=click.Path(path_type=Path, exists=True, file_okay=False), help="Folder of recorded walks."
)
@click.option(
    "--record",
    type=click.Path(path_type=Path, file_okay=False),
    help="Write walks there to what is not covered.",
)
@click.option("--coverage", is_flag=True, help="Only what recorded walks cover, without the shortest walks.")
@click.option("--prove", is_flag=True, help="Do not count what no walk can cover; tell it apart.")
@click.option("--under", type=click.FloatRange(0, 100), metavar="PERCENT", help="Exit 1 if less is covered.")
def paths(
    names: tuple[str, ...],
    *,
    form: str,
    meter: str,
    walks: Path | None,
    record: Path | None,
    coverage: bool,
    prove: bool,
    under: float | None,
) -> Task:
    """Every ending with the shortest walk to it, and what recorded walks do not cover yet."""

    def task() -> int:
        from .author.paths_command import Wanted, tell_paths

        wanted = Wanted(names, form, walks, record, under, meter, coverage, prove)
        try:
            return tell_paths(wanted, echo, narrate)
        except ValueError as error:
            raise Usage(str(error)) from None

    return task


@shorewalk.command(options_metavar="[--json] [--explain] [--plot]")
@click.argument("name", required=False)
@click.argument("values", nargs=-1, metavar="[KEY=VALUE]...")
@click.option("--json", "as_json", is_flag=True, help="For programs.")
@click.option("--explain", is_flag=True, help="What it takes, its formulas and where they come from.")
@click.option("--plot", is_flag=True, help="Draw it as text, where a line says more than a number.")
def calc(name: str | None, values: tuple[str, ...], *, as_json: bool, explain: bool, plot: bool) -> Task:
    """Work out one thing from numbers you have, with the meter's error; all of them if no NAME."""

    def task() -> int:
        from shutil import get_terminal_size

        from .calc.command import run_calc
        from .walking import WIDEST

        room, write = min(get_terminal_size().columns, WIDEST), partial(echo, nl=False)
        return run_calc(name, values, write, room, as_json=as_json, explain=explain, plot=plot)

    return task


@shorewalk.command(options_metavar="[OPTIONS]")
@click.argument("what", nargs=-1, metavar="[SITE|WALK]")
@click.option(
    "--export", type=click.Choice(["csv", "json"]), help="All that is kept, or what was named, for programs."
)
@click.option(
    "--at", metavar="SITE", help='Say where a walk was: "14, Juniper Flats". Nothing in it takes that back.'
)
@click.option(
    "--message",
    type=click.Choice(["park", "electrician"]),
    help="Print the message of a walk, or its record.",
)
@click.option(
    "--pdf", type=click.Path(path_type=Path), metavar="FILE", help="Write the record of a walk to a new PDF."
)
@click.option("--delete", is_flag=True, help="Delete what was named. It asks once.")
@click.option("--delete-all", "everything", is_flag=True, help="Delete every walk. It asks once.")
@click.option("--yes", is_flag=True, help="Delete without asking.")
def log(what: tuple[str, ...], **asked: Any) -> Task:
    """Past walks by site; with SITE their readings compared, hour by hour; with a number that WALK.

    A number is a site's first: walk:3 is the walk, site:3 the site, last the latest walk.
    """

    def task() -> int:
        from .journal import Journal
        from .log.command import Asked, Out, run_log

        out = Out(partial(echo, nl=False), narrate, confirmed, columns())
        return run_log(Asked(" ".join(what) or None, **asked), Journal.open(), out)

    return task
