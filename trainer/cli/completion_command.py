"""`slantwise completion`: what a shell needs to complete commands, options and files by the Tab key."""

from __future__ import annotations

from argparse import Namespace

from trainer.cli.parser import Console, Parser

SHELLS = ("bash", "zsh", "fish")
_WHERE = """to have it in every new shell, once:
  slantwise completion bash > ~/.local/share/bash-completion/completions/slantwise
  slantwise completion zsh > a folder of $fpath, as _slantwise
  slantwise completion fish > ~/.config/fish/completions/slantwise.fish
"""


def add_arguments(parser: Parser) -> None:
    """Add the shell."""
    parser.description = "Prints what your shell needs to complete commands and options by the Tab key."
    parser.epilog = _WHERE
    parser.add_argument("shell", choices=SHELLS, help="the shell you use")


def run(options: Namespace, console: Console) -> int:
    """Print the shell's script, by which it calls the program when a line is to be completed."""
    from argcomplete.shell_integration import shellcode

    console.stdout.write(shellcode(["slantwise"], shell=options.shell).lstrip())
    return 0
