"""`begin`, `intact`, `proofread`: what makes and examines files."""

from __future__ import annotations

import argparse
from pathlib import Path

from jobtrack.cli.record.options import split
from jobtrack.cli.saying import DONE, FINDING, BadInput, say, typed, typed_name
from jobtrack.cli.templates.shelf import template_path
from jobtrack.sheets.words.hazards import hazard_sentences
from jobtrack.sheets.words.sentences import FIRST_WORD
from jobtrack.store.copies import intact
from jobtrack.store.file.beginning import begin as begin_job
from jobtrack.template.findings import NOTHING_FOUND, as_json, as_lines

ALL_GIVENS = 48 * 1024
"""Bytes of the givens that fit into a job's first entry."""


def begin(options: argparse.Namespace) -> int:
    """A new job file from a template, with its first entry."""
    from jobtrack.template.proofread import remarks_of

    path = template_path(options)
    remarks_of(path)
    givens = [split("given", typed("--given", text)) for text in options.given or ()]
    if sum(len(value.encode()) for _, value in givens) > ALL_GIVENS:
        raise BadInput(
            f"the givens are longer than {ALL_GIVENS} bytes together; record some of them afterwards"
        )
    title = None if options.title is None else typed_name("--title", options.title)
    file = begin_job(path, Path(options.out), typed_name("--by", options.by), title, givens)
    say(f"Begun: {file.job.about.title}, in {file.path}")
    for text in (FIRST_WORD, *hazard_sentences(file.job.plan.template.hazard)):
        say(text)
    return DONE


def examine(options: argparse.Namespace) -> int:
    """Whether a job file is as it was written."""
    path = Path(options.jobfile)
    whole = intact.taken_apart(path)
    found = [*intact.examine(whole), *intact.gone(whole, path)]
    for one in found:
        say(one.text(path))
    if all(one.remark for one in found):
        say(intact.INTACT)
        return DONE
    return FINDING


def proofread(options: argparse.Namespace) -> int:
    """What is wrong or doubtful in the form of templates."""
    from jobtrack.template.proofread import check

    found = [one for name in options.template for one in check(Path(name))]
    if options.json:
        print(as_json(found))
        return FINDING if found else DONE
    for line in as_lines(found) or [NOTHING_FOUND]:
        say(line)
    return FINDING if found else DONE
