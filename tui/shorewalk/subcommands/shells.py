"""Scripts by which a shell completes what is typed, and what they ask for.

All three shells ask alike: the line up to the cursor stands in one variable, and each answer is a line of its kind,
the word, and what it means, between tabs.
"""

from __future__ import annotations

import os
from typing import NamedTuple

import click
from click.shell_completion import CompletionItem, ShellComplete, split_arg_string

from ..seen import first_unseen, seen

ASKED = "SHOREWALK_COMPLETE"
"""The variable a script puts the line into; `cli.py` looks for it before all else."""

BASH = """\
_shorewalk_completion() {
    local kind word says line=${COMP_LINE:0:COMP_POINT} part=${COMP_WORDS[COMP_CWORD]}
    local typed=${line##*[[:space:]]}
    [[ $part == [=:] ]] && part=
    local before=${typed%"$part"}
    COMPREPLY=()
    while IFS=$'\\t' read -r kind word says; do
        case $kind in
            file) compopt -o default ;;
            dir) compopt -o dirnames ;;
            begun | plain)
                [[ $kind == begun ]] && compopt -o nospace
                word=${word#"$before"}
                [[ $word == *[^[:alnum:]_./:=,@%+-]* ]] && printf -v word %q "$word"
                COMPREPLY+=("$word")
                ;;
        esac
    done < <(SHOREWALK_COMPLETE=$line "${1/#\\~/$HOME}" 2>/dev/null)
}
complete -o nosort -F _shorewalk_completion shorewalk
"""
ZSH = """\
(( $+functions[compdef] )) || { autoload -U compinit && compinit }
_shorewalk_completion() {
    local kind word says file dir
    local -a whole begun
    while IFS=$'\\t' read -r kind word says; do
        case $kind in
            file) file=1 ;;
            dir) dir=1 ;;
            begun) begun+=("${word//:/\\\\:}:$says") ;;
            plain) whole+=("${word//:/\\\\:}:$says") ;;
        esac
    done < <(SHOREWALK_COMPLETE="${(j: :)words[1,CURRENT]}" ${~words[1]} 2>/dev/null)
    (( $#whole )) && _describe -V shorewalk whole
    (( $#begun )) && _describe -V shorewalk begun -S ''
    [[ -n $file ]] && _files
    [[ -n $dir ]] && _path_files -/
    return 0
}
compdef _shorewalk_completion shorewalk
"""
FISH = """\
function __shorewalk_completion
    set -lx SHOREWALK_COMPLETE (commandline -cp)
    set -l program (commandline -opc)[1]
    for line in ($program 2>/dev/null)
        set -l parts (string split \\t -- $line)
        switch $parts[1]
            case file
                __fish_complete_path (commandline -ct)
            case dir
                __fish_complete_directories (commandline -ct)
            case begun plain
                printf '%s\\t%s\\n' $parts[2] $parts[3]
        end
    end
end
complete --no-files --command shorewalk --arguments '(__shorewalk_completion)'
"""


class Shell(NamedTuple):
    """A script, and the line that puts it where the shell finds it."""

    script: str
    install: str


SHELLS = {
    "bash": Shell(BASH, "shorewalk completion bash >> ~/.bashrc"),
    "zsh": Shell(ZSH, "shorewalk completion zsh >> ~/.zshrc"),
    "fish": Shell(
        FISH,
        "mkdir -p ~/.config/fish/completions && "
        "shorewalk completion fish > ~/.config/fish/completions/shorewalk.fish",
    ),
}


def script_of(shell: str) -> str:
    """Return the script for a shell; its first line says how to install it."""
    script, install = SHELLS[shell]
    return f"# To complete commands, trees, sites and sums: {install}\n{script}"


class _Line(ShellComplete):
    """Completes the line in `ASKED`, its last word."""

    name = "line"
    source_template = ""

    def get_completion_args(self) -> tuple[list[str], str]:
        line = os.environ[ASKED]
        words = split_arg_string(line)[1:]
        if not words or line[-1].isspace():
            return words, ""
        return words[:-1], words[-1]

    def get_completions(self, args: list[str], incomplete: str) -> list[CompletionItem[str]]:
        """Return whole words: of `--format=sa` the library gives back what stands behind the sign."""
        option, given, _ = incomplete.partition("=")
        items = super().get_completions(args, incomplete)
        if not given or not option.startswith("-"):
            return items
        return [CompletionItem(f"{option}={item.value}", item.type, item.help) for item in items]

    def format_completion(self, item: CompletionItem) -> str:
        """Return a line: what somebody typed once, or handed over, makes no second one and steers no terminal."""
        if first_unseen(item.value) is not None:
            return ""
        says = " ".join(seen(item.help or "").split())
        return f"{item.type}\t{item.value}\t{says}".rstrip("\t")


def completions(group: click.Command) -> str:
    """Return what the line in `ASKED` may go on with."""
    return _Line(group, {}, "shorewalk", ASKED).complete()
