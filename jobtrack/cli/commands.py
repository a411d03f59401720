"""The commands, one declaration each: name, what it does, an example, its options, and the function that does it.

The function is named, not imported: a command brings in what it needs itself, and no other's.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable
from typing import NamedTuple


class Command(NamedTuple):
    """One command of the program."""

    name: str
    help: str
    example: str
    """As it is typed behind `jobtrack`."""
    options: Callable[[argparse.ArgumentParser], None]
    does: str
    """`module:function` in this room; the function takes the parsed options and gives the exit status."""
    own_help: bool = False
    """Whether it answers --help itself."""


def _open(one: argparse.ArgumentParser) -> None:
    one.add_argument("jobfile", metavar="JOBFILE")
    one.add_argument("--by", metavar="NAME", default=argparse.SUPPRESS)


def _templates(one: argparse.ArgumentParser) -> None:
    one.add_argument("--json", action="store_true")


def _begin(one: argparse.ArgumentParser) -> None:
    one.add_argument("template", metavar="TEMPLATE")
    one.add_argument("--out", metavar="JOBFILE", required=True)
    one.add_argument("--by", metavar="NAME", required=True)
    one.add_argument("--title", metavar="TEXT")
    one.add_argument("--given", metavar="[VEHICLE.]NAME=VALUE", action="append")


def _record(one: argparse.ArgumentParser) -> None:
    from jobtrack.cli.record.options import add_options

    one.add_argument("jobfile", metavar="JOBFILE")
    one.add_argument("step", metavar="STEP[.MEMBER]", nargs="?")
    one.add_argument("--by", metavar="NAME", required=True)
    one.add_argument("--at", metavar="TIMESTAMP", help="when it was done, RFC 3339")
    add_options(one)


def _show(one: argparse.ArgumentParser) -> None:
    one.add_argument("jobfile", metavar="JOBFILE")
    either = one.add_mutually_exclusive_group()
    either.add_argument("--json", action="store_true")
    either.add_argument(
        "--to-buy", action="store_true", help="the list of parts that are missing or on their way"
    )
    either.add_argument(
        "--now", action="store_true", help="what can be done now, by one, by two, side by side; what waits"
    )
    either.add_argument(
        "--wheel-tag", metavar="FILE.html", help="write the tags for the steering wheel, half a page to print"
    )
    one.add_argument(
        "--by", metavar="NAME", default=argparse.SUPPRESS, help="who leaves it so, named on --wheel-tag"
    )


def _work_out(one: argparse.ArgumentParser) -> None:
    one.add_argument("name", metavar="NAME", nargs="?")
    one.add_argument("inputs", metavar="KEY=VALUE", nargs="*")
    one.add_argument("--json", action="store_true")
    one.add_argument("--out", metavar="FILE.md", help="write the page of all workings-out, or of NAME")
    one.add_argument(
        "--help", "-h", dest="help_wanted", action="store_true", help="what goes in and comes out"
    )


def _hours(one: argparse.ArgumentParser) -> None:
    one.add_argument("path", metavar="PATH", nargs="+")
    one.add_argument("--per", choices=["step", "stage", "person", "vehicle", "job", "template", "month"])
    either = one.add_mutually_exclusive_group()
    either.add_argument("--json", action="store_true")
    either.add_argument(
        "--csv", metavar="FILE.csv", help="write a table for a spreadsheet too; none is overwritten"
    )


SAYS = {
    "--holds-up": "what holds the vehicle up, and when that was shaken",
    "--decides": "who decides what, and until when they can be reached",
    "--promised": "what was promised to whom",
    "--tried": "what was tried and didn't work",
    "--says": "what else you want to say",
}
"""What a giver may say in their own words; what is left out has lines on the sheet to write on."""


def _handover(one: argparse.ArgumentParser) -> None:
    from jobtrack.cli.on_paper.writing import add_units

    one.add_argument("jobfile", metavar="JOBFILE")
    one.add_argument("--by", metavar="NAME", required=True)
    one.add_argument(
        "--to", metavar="NAME", required=True, help="your own name again: the short sheet for the morning"
    )
    for name, help_ in SAYS.items():
        one.add_argument(name, metavar="TEXT", help=help_)
    add_units(one)
    one.add_argument("--out", metavar="FILE.html|.md|.txt", help="without it, Markdown on the terminal")


def _job_card(one: argparse.ArgumentParser) -> None:
    from jobtrack.cli.on_paper.writing import add_units

    one.add_argument("jobfile", metavar="JOBFILE")
    one.add_argument(
        "--out",
        metavar="FILE.html|.md|.txt",
        required=True,
        help="the card that is written; none is overwritten",
    )
    one.add_argument("--empty", action="store_true", help="leave every frame empty, whatever is recorded")
    add_units(one)


def _vehicle_record(one: argparse.ArgumentParser) -> None:
    from jobtrack.cli.on_paper.writing import add_units
    from jobtrack.sheets.vehicle_record.private import MAY_BE_INCLUDED

    one.add_argument("jobfile", metavar="JOBFILE")
    one.add_argument("vehicle", metavar="VEHICLE", help="one vehicle of the job, by its id or its name")
    one.add_argument("--out", metavar="FILE.html", required=True, help="or .md, .txt; none is overwritten")
    one.add_argument(
        "--including",
        choices=MAY_BE_INCLUDED,
        action="append",
        help="what private stands on it too; may be repeated",
    )
    add_units(one)


class _ForGit(argparse.Action):
    """As --help: prints what is asked, and ends."""

    def __call__(self, parser: argparse.ArgumentParser, *asked: object) -> None:
        from jobtrack.cli.merging import FOR_GIT

        print(FOR_GIT, end="")
        parser.exit()


def _merge(one: argparse.ArgumentParser) -> None:
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


def _intact(one: argparse.ArgumentParser) -> None:
    one.add_argument("jobfile", metavar="JOBFILE")


def _proofread(one: argparse.ArgumentParser) -> None:
    one.add_argument("template", metavar="TEMPLATE", nargs="+")
    one.add_argument("--json", action="store_true")


def _rehearse(one: argparse.ArgumentParser) -> None:
    one.add_argument("template", metavar="TEMPLATE")


def _new_template(one: argparse.ArgumentParser) -> None:
    one.add_argument(
        "--out", metavar="FILE", required=True, help="the template that is written; none is overwritten"
    )
    one.add_argument(
        "--from", metavar="JOBFILE", dest="from_",
        help="a job that has ended: its added steps, times, parts and surprises make the next version of its template",
    )  # fmt: skip


def _schema(one: argparse.ArgumentParser) -> None:
    one.add_argument("name", metavar="NAME", nargs="?")


COMMANDS = (
    Command(
        "open",
        "The app on one job.",
        "open flatbed.job.toml --by Wim",
        _open,
        "app:on_one_job",
    ),
    Command(
        "templates",
        "The templates that a job can be begun from.",
        "templates --json",
        _templates,
        "templates.shelf:templates",
    ),
    Command(
        "begin",
        "Begin a job.",
        "begin axle-exchange --out van.job.toml --by Wim --given donor.name=Ostrick",
        _begin,
        "files:begin",
    ),
    Command(
        "record",
        "Record one call of a person, one entry.",
        "record flatbed.job.toml mark.left --by Wim --reading moved=23.4 --finished",
        _record,
        "record.command:record",
    ),
    Command(
        "show",
        "The state of a job.",
        "show flatbed.job.toml --wheel-tag tag.html --by Wim",
        _show,
        "reports:show",
    ),
    Command(
        "work-out",
        "One working-out, or all by topic.",
        "work-out perch-shift spacing_now=1012 spacing_wanted=38in",
        _work_out,
        "work_out:work_out",
        own_help=True,
    ),
    Command(
        "hours",
        "Labour hours over jobs.",
        "hours jobs --per person --csv hours.csv",
        _hours,
        "reports:hours",
    ),
    Command(
        "handover",
        "Hand a half-finished job over.",
        "handover flatbed.job.toml --by Wim --to Ada --out handover.html",
        _handover,
        "on_paper.handover:handover",
    ),
    Command(
        "job-card",
        "The job card for the bench, filled in so far; with --empty: frames alone.",
        "job-card flatbed.job.toml --out flatbed-card.html",
        _job_card,
        "on_paper.job_card:job_card",
    ),
    Command(
        "vehicle-record",
        "What was done to one vehicle, as a sheet; shows what will stand on it, and asks, before it is written.",
        "vehicle-record flatbed.job.toml recipient --out flatbed.html",
        _vehicle_record,
        "on_paper.vehicle_record:write_record",
    ),
    Command(
        "merge",
        "Join copies of a job; --out or --in-place says where to.",
        "merge mine.job.toml stick.job.toml --out both.job.toml",
        _merge,
        "merging:merge_copies",
    ),
    Command(
        "intact",
        "Whether a job file is as it was written.",
        "intact flatbed.job.toml",
        _intact,
        "files:examine",
    ),
    Command(
        "proofread",
        "What is wrong or doubtful in the form of a template.",
        "proofread mine.toml",
        _proofread,
        "files:proofread",
    ),
    Command(
        "rehearse",
        "The app on an invented job of a template; nothing is recorded.",
        "rehearse mine.toml",
        _rehearse,
        "templates.rehearsing:rehearse",
    ),
    Command(
        "new-template",
        "A template from a few questions, or with --from the next version of one from a job.",
        "new-template --from flatbed.job.toml --out axle-exchange-3.toml",
        _new_template,
        "templates.new_template:new_template",
    ),
    Command(
        "schema",
        "JSON Schema of templates, of the settings, and of what --json prints; without NAME: which there are.",
        "schema show > show.schema.json",
        _schema,
        "schema:schema",
    ),
)
"""In the order in which --help lists them."""
