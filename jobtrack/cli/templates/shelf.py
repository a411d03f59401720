"""`templates`, and the template that another command names."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from jobtrack.cli.saying import DONE, FINDING, complain, say, say_json
from jobtrack.sheets.words.templates import whence, which_file
from jobtrack.store.machine.jobs_folder import which_folder
from jobtrack.store.machine.settings import read_settings
from jobtrack.store.machine.template_folders import Shelf, TemplateFile, named, shelf


def templates(options: argparse.Namespace) -> int:
    """The templates that a job can be begun from; what can't be read as one is named on stderr."""
    found = _shelf(options)
    if options.json:
        say_json([_as_json(one) for one in found.templates])
    else:
        for one in found.templates:
            say(", ".join([f"{one.id}: {one.title} ({one.steps} steps)", *whence(one)]))
    for unread in found.broken:
        complain(unread.why)
    return FINDING if found.broken else DONE


def _as_json(one: TemplateFile) -> dict[str, Any]:
    return {
        "id": one.id,
        "title": one.title,
        "steps": one.steps,
        "file": str(one.file),
        "where": one.where,
        "instead_of": [str(other.file) for other in one.instead_of],
    }


def template_path(options: argparse.Namespace) -> Path:
    """The file of the template that was named by its id or its path; which one of several is said.

    Raises TemplateError.
    """
    name = str(options.template)
    if Path(name).is_file():
        return Path(name)
    among = _shelf(options)
    found = named(name, among)
    for one in among.broken:
        if one.file.stem == name:
            complain(f"not used: {one.why}")
    if said := which_file(found):
        say(said)
    return found.file


def _shelf(options: argparse.Namespace) -> Shelf:
    asked = Path(options.folder) if options.folder else None
    return shelf(which_folder(asked, read_settings().settings.folder))
