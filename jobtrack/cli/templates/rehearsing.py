"""`rehearse`: the app on an invented job that is on no disk."""

from __future__ import annotations

import argparse

from jobtrack.app.main import run_rehearsal
from jobtrack.app.rehearsal import OVER, REHEARSER
from jobtrack.cli.app import own_settings
from jobtrack.cli.saying import complain, say
from jobtrack.cli.templates.shelf import template_path
from jobtrack.store.file.beginning import rehearse as begun
from jobtrack.template.findings import as_lines
from jobtrack.template.proofread import remarks_of


def rehearse(options: argparse.Namespace) -> int:
    """The app on an invented job of a template; the remarks on it are said first, and nothing is recorded."""
    path = template_path(options)
    found = remarks_of(path)
    for remark in as_lines(found) if found else ():
        complain(remark)
    ended = run_rehearsal(begun(path, REHEARSER), len(found), own_settings())
    say(OVER)
    return ended
