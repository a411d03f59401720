"""The command line, thin: options, one function a command, and one line for whatever went wrong."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn, TypeAlias

from jobtrack.cli.saying import BAD_INPUT, NOT_RECORDED, BadInput, complain, say

if TYPE_CHECKING:
    from jobtrack.store.machine.settings import Settings


class Parser(argparse.ArgumentParser):
    """argparse with one line on stderr, and no abbreviated options."""

    def error(self, message: str) -> NoReturn:
        raise BadInput(f"{message}; `{self.prog} --help` shows how")


def parser() -> Parser:
    """All commands and their options."""
    top = Parser(
        "jobtrack",
        description="Guides and records a workshop job.",
        allow_abbrev=False,
        epilog="Example: jobtrack --folder jobs --by Wim",
    )
    top.add_argument("--folder", metavar="DIR", help="the folder of the jobs (else JOBTRACK_FOLDER)")
    top.add_argument("--by", metavar="NAME", help="who records")
    commands = top.add_subparsers(dest="command", metavar="COMMAND", parser_class=Parser)
    for add in (
        _open,
        _templates,
        _begin,
        _record,
        _show,
        _work_out,
        _hours,
        _handover,
        _merge,
        _intact,
        _proofread,
        _schema,
    ):
        add(commands)
    return top


Commands: TypeAlias = "argparse._SubParsersAction[Parser]"


def _command(commands: Commands, name: str, help: str, example: str) -> Parser:
    return commands.add_parser(
        name, help=help, description=help, epilog=f"Example: jobtrack {example}", allow_abbrev=False
    )


def _open(commands: Commands) -> None:
    one = _command(commands, "open", "The app on one job.", "open flatbed.job.toml --by Wim")
    one.add_argument("jobfile", metavar="JOBFILE")
    one.add_argument("--by", metavar="NAME", default=argparse.SUPPRESS)


def _templates(commands: Commands) -> None:
    one = _command(commands, "templates", "The templates that a job can be begun from.", "templates --json")
    one.add_argument("--json", action="store_true")


def _begin(commands: Commands) -> None:
    one = _command(
        commands,
        "begin",
        "Begin a job.",
        "begin axle-exchange --out van.job.toml --by Wim --given donor.name=Ostrick",
    )
    one.add_argument("template", metavar="TEMPLATE")
    one.add_argument("--out", metavar="JOBFILE", required=True)
    one.add_argument("--by", metavar="NAME", required=True)
    one.add_argument("--title", metavar="TEXT")
    one.add_argument("--given", metavar="[VEHICLE.]NAME=VALUE", action="append")


def _record(commands: Commands) -> None:
    from jobtrack.cli.record_options import add_options

    one = _command(
        commands,
        "record",
        "Record one call of a person, one entry.",
        "record flatbed.job.toml mark.left --by Wim --reading moved=23.4 --finished",
    )
    one.add_argument("jobfile", metavar="JOBFILE")
    one.add_argument("step", metavar="STEP[.MEMBER]", nargs="?")
    one.add_argument("--by", metavar="NAME", required=True)
    one.add_argument("--at", metavar="TIMESTAMP", help="when it was done, RFC 3339")
    add_options(one)


def _show(commands: Commands) -> None:
    one = _command(commands, "show", "The state of a job.", "show flatbed.job.toml --json")
    one.add_argument("jobfile", metavar="JOBFILE")
    one.add_argument("--json", action="store_true")


def _work_out(commands: Commands) -> None:
    one = commands.add_parser(
        "work-out",
        help="One working-out, or all by topic.",
        description="One working-out, or all by topic.",
        epilog="Example: jobtrack work-out perch-shift spacing_now=1012 spacing_wanted=38in",
        add_help=False,
        allow_abbrev=False,
    )
    one.add_argument("name", metavar="NAME", nargs="?")
    one.add_argument("inputs", metavar="KEY=VALUE", nargs="*")
    one.add_argument("--json", action="store_true")
    one.add_argument("--out", metavar="FILE.md", help="write the page of all workings-out, or of NAME")
    one.add_argument(
        "--help", "-h", dest="help_wanted", action="store_true", help="what goes in and comes out"
    )


def _hours(commands: Commands) -> None:
    one = _command(commands, "hours", "Labour hours over jobs.", "hours jobs --per person")
    one.add_argument("path", metavar="PATH", nargs="+")
    one.add_argument("--per", choices=["step", "stage", "person", "vehicle", "job", "template", "month"])
    one.add_argument("--json", action="store_true")


def _handover(commands: Commands) -> None:
    one = _command(
        commands,
        "handover",
        "Hand a half-finished job over.",
        "handover flatbed.job.toml --by Wim --to Ada --out handover.md",
    )
    one.add_argument("jobfile", metavar="JOBFILE")
    one.add_argument("--by", metavar="NAME", required=True)
    one.add_argument("--to", metavar="NAME", required=True)
    one.add_argument("--out", metavar="FILE.md")


class _ForGit(argparse.Action):
    """As --help: prints what is asked, and ends."""

    def __call__(self, parser: argparse.ArgumentParser, *asked: object) -> None:
        from jobtrack.cli.merging import FOR_GIT

        print(FOR_GIT, end="")
        parser.exit()


def _merge(commands: Commands) -> None:
    one = _command(
        commands,
        "merge",
        "Join copies of a job; --out or --in-place says where to.",
        "merge mine.job.toml stick.job.toml --out both.job.toml",
    )
    one.add_argument("jobfile", metavar="JOBFILE", help="a copy; the one that --in-place replaces")
    one.add_argument("other", metavar="OTHER", nargs="+", help="more copies of the same job, in any order")
    one.add_argument("--out", metavar="FILE", help="write a new file; the copies stay as they are")
    one.add_argument("--in-place", action="store_true", help="put the result in the place of JOBFILE")
    one.add_argument(
        "--git",
        action=_ForGit,
        nargs=0,
        help="print what makes git join copies by this command, and do nothing",
    )
    one.add_argument("--without", metavar="HASH", action="append", help="go on without a damaged entry")
    one.add_argument("--by", metavar="NAME", default=argparse.SUPPRESS)


def _intact(commands: Commands) -> None:
    one = _command(commands, "intact", "Whether a job file is as it was written.", "intact flatbed.job.toml")
    one.add_argument("jobfile", metavar="JOBFILE")


def _proofread(commands: Commands) -> None:
    one = _command(
        commands, "proofread", "What is wrong or doubtful in the form of a template.", "proofread mine.toml"
    )
    one.add_argument("template", metavar="TEMPLATE", nargs="+")
    one.add_argument("--json", action="store_true")


def _schema(commands: Commands) -> None:
    one = _command(
        commands,
        "schema",
        "JSON Schema of templates, of the settings, and of what --json prints; without NAME: which there are.",
        "schema show > show.schema.json",
    )
    one.add_argument("name", metavar="NAME", nargs="?")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit status: 0 done, 1 finding, 2 bad input, 3 not recorded."""
    from jobtrack.job.compose.refusal import Refused
    from jobtrack.shopmath.catalogue import WorkingOutError
    from jobtrack.store.file.reader import JobFileError
    from jobtrack.store.file.writer import NotRecorded
    from jobtrack.template.load import TemplateError
    from jobtrack.units import UnitError

    _print_whatever_comes()
    try:
        return _run(parser().parse_args(arguments))
    except NotRecorded as error:
        complain(str(error))
        return NOT_RECORDED
    except (BadInput, JobFileError, Refused, TemplateError, UnitError, WorkingOutError) as error:
        complain(str(error))
        return BAD_INPUT
    except BrokenPipeError:
        sys.stderr.close()
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
    from jobtrack.cli import files, merging, reports
    from jobtrack.cli import work_out as working
    from jobtrack.cli.record import record
    from jobtrack.cli.schema import schema

    commands = {
        "templates": files.templates,
        "begin": files.begin,
        "record": record,
        "show": reports.show,
        "work-out": working.work_out,
        "hours": reports.hours,
        "handover": reports.handover,
        "merge": merging.merge_copies,
        "intact": files.examine,
        "proofread": files.proofread,
        "schema": schema,
    }
    if options.command in commands:
        if options.command == "merge" and not hasattr(options, "by"):
            options.by = None
        return commands[options.command](options)
    return _app(options)


def _app(options: argparse.Namespace) -> int:
    """The app on the jobs folder, or on one job of it."""
    from jobtrack.app.main import run, run_job
    from jobtrack.store.machine.jobs_folder import jobs_folder

    settings = _settings()
    by = options.by or settings.by
    if options.command == "open" and Path(options.jobfile).exists():
        return run_job(Path(options.jobfile), by)
    folder, samples = jobs_folder(Path(options.folder) if options.folder else None, settings.folder)
    if samples:
        say(f"First use: copies of {len(samples)} sample jobs were put into {folder}")
    if options.command == "open":
        return run_job(folder / options.jobfile, by)
    return run(folder, by)


def _settings() -> Settings:
    """The user's settings; a mistake in them is said on a line of its own, and stops nothing."""
    from jobtrack.store.machine.settings import read_settings

    found = read_settings()
    for mistake in found.mistakes:
        complain(mistake)
    return found.settings


if __name__ == "__main__":
    sys.exit(main())
