"""Where templates are found: in the user's own folder, then among the jobs, then those that travel with the program."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from jobtrack.store.machine.jobs_folder import ENDING, shipped
from jobtrack.store.machine.settings import settings_file
from jobtrack.template.load import TemplateError, load

OWN, JOBS, SHIPPED = "own", "jobs", "shipped"
"""Where a template is: in the user's own folder, in the folder of the jobs, with the program."""


class TemplateFile(Struct, frozen=True):
    """A template that a job can be begun from: what a person chooses it by, and its file."""

    id: str
    title: str
    steps: int
    file: Path
    where: str
    instead_of: tuple[TemplateFile, ...] = ()
    """Those of the same id that are found after it, in whose place it stands."""


class Unread(Struct, frozen=True):
    """A file among the templates that can't be read as one: a line that says where, what, and how to mend it."""

    file: Path
    why: str


class Shelf(Struct, frozen=True):
    """The templates of all folders, and the files that can't be read as one."""

    templates: tuple[TemplateFile, ...] = ()
    broken: tuple[Unread, ...] = ()


def own_folder() -> Path:
    """Where the user's own templates stand, beside the settings, whether there are any or not."""
    return settings_file().with_name("templates")


def shelf(jobs: Path) -> Shelf:
    """Every template, in the order in which they are looked for; `jobs` is the folder of the jobs."""
    first: dict[str, TemplateFile] = {}
    broken = []
    for where, path in _files(jobs):
        try:
            template, _ = load(path)
        except TemplateError as error:
            broken.append(Unread(path, str(error)))
            continue
        found = TemplateFile(template.id, template.title, len(template.step), path, where)
        before = first.get(found.id)
        first[found.id] = replace(before, instead_of=(*before.instead_of, found)) if before else found
    return Shelf(tuple(first.values()), tuple(broken))


def _files(jobs: Path) -> Iterator[tuple[str, Path]]:
    for where, folder in ((OWN, own_folder()), (JOBS, jobs), (SHIPPED, shipped("job_templates"))):
        for path in sorted(folder.glob("*.toml")):
            if path.is_file() and not path.name.endswith(ENDING):
                yield where, path


def named(name: str, among: Shelf) -> TemplateFile:
    """The template of an id. Raises TemplateError."""
    known = {one.id: one for one in among.templates}
    if name not in known:
        unread = (
            f"; {len(among.broken)} can't be read, `jobtrack templates` names them" if among.broken else ""
        )
        raise TemplateError(f"{name}: no such template; there are {', '.join(known)}, or name a file{unread}")
    return known[name]
