"""Which file a template is, where there could be another of its id; the same words on a terminal and in the app."""

from __future__ import annotations

from jobtrack.sheets.words.sentences import joined
from jobtrack.store.machine.template_folders import JOBS, OWN, SHIPPED, TemplateFile

WHERE = {OWN: "your own", JOBS: "from the jobs folder"}
_ANOTHER = {OWN: "another of your own", JOBS: "one from the jobs folder", SHIPPED: "the shipped one"}


def whence(one: TemplateFile) -> list[str]:
    """As "your own" and "in place of the shipped one"; nothing for a shipped one that is the only one of its id."""
    own = [] if one.where == SHIPPED else [WHERE[one.where]]
    others = joined([_ANOTHER[other.where] for other in one.instead_of])
    return [*own, *([f"in place of {others}"] if others else [])]


def which_file(one: TemplateFile) -> str:
    """The sentence that names the file where there is a choice of files, and whose place it takes."""
    said = whence(one)
    return f"The template is {', '.join(said)}: {one.file}." if said else ""
