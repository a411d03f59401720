"""The command line, thin: which command was asked for, and one line for whatever went wrong."""

from __future__ import annotations

import argparse
import gc
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from io import TextIOWrapper
from types import ModuleType
from typing import NoReturn, cast

from jobtrack.cli.commands import COMMANDS
from jobtrack.cli.saying import BAD_INPUT, NOT_RECORDED, BadInput, complain

APP = "app:on_folder"


class Parser(argparse.ArgumentParser):
    """argparse with one line on stderr, and no abbreviated options."""

    def error(self, message: str) -> NoReturn:
        """Raises BadInput, which `main` says on one line; argparse itself would print its whole usage."""
        said = message.replace("not allowed with argument", "can't go with")
        raise BadInput(f"{said}; `{self.prog} --help` shows how")


def parser(asked: Sequence[str]) -> Parser:
    """All commands; the options of those that are named in what was asked."""
    top = Parser(
        "jobtrack",
        description="Guides and records a workshop job.",
        allow_abbrev=False,
        epilog="Example: jobtrack --folder jobs --by Wim",
    )
    top.add_argument("--folder", metavar="DIR", help="the folder of the jobs (else JOBTRACK_FOLDER)")
    top.add_argument("--by", metavar="NAME", help="who records")
    top.set_defaults(does=APP)
    commands = top.add_subparsers(dest="command", metavar="COMMAND", parser_class=Parser)
    for one in COMMANDS:
        made = commands.add_parser(
            one.name,
            help=one.help,
            description=one.help,
            epilog=f"Example: jobtrack {one.example}",
            add_help=not one.own_help,
            allow_abbrev=False,
        )
        if one.name in asked:
            one.options(made)
            made.set_defaults(does=one.does)
    return top


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit status: 0 done, 1 finding, 2 bad input, 3 not recorded."""
    _print_whatever_comes()
    asked = sys.argv[1:] if arguments is None else arguments
    try:
        return _run(parser(asked).parse_args(asked))
    except SystemExit:
        raise  # --help ends so, and needs nothing of what is asked below
    except BrokenPipeError:
        sys.stderr.close()
        return BAD_INPUT
    except _not_recorded() as error:
        complain(str(error))
        return NOT_RECORDED
    except _refusals() as error:
        complain(str(error))
        return BAD_INPUT
    except OSError as error:
        complain(f"{error.filename or 'a file'}: {error.strerror}; name another")
        return BAD_INPUT


def _print_whatever_comes() -> None:
    """A terminal that can't show a character gets its number; nothing stops at it."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _run(options: argparse.Namespace) -> int:
    module, _, name = options.does.partition(":")
    function = getattr(_brought_in(f"jobtrack.cli.{module}"), name)
    return cast(Callable[[argparse.Namespace], int], function)(options)


def _brought_in(module: str) -> ModuleType:
    """A module with all that it needs. What is made meanwhile stays, so that no garbage is looked for in it."""
    gc.disable()
    try:
        return import_module(module)
    finally:
        gc.freeze()
        gc.enable()


# Python asks what an `except` catches only once something was raised: until then nothing is imported for it.


def _not_recorded() -> type[Exception]:
    from jobtrack.store.file.writer import NotRecorded

    return NotRecorded


def _refusals() -> tuple[type[Exception], ...]:
    """What is bad input or a refused act, each with its own one line."""
    from jobtrack.job.compose.refusal import Refused
    from jobtrack.shopmath.quantity import WorkingOutError
    from jobtrack.store.file.reader import JobFileError
    from jobtrack.template.load import TemplateError
    from jobtrack.units import UnitError

    return BadInput, JobFileError, Refused, TemplateError, UnitError, WorkingOutError


if __name__ == "__main__":
    sys.exit(main())
