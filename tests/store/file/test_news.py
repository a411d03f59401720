"""A file read by one thread and shown by another: the state changes only when the second takes in what was read."""

from __future__ import annotations

import threading
from datetime import UTC, datetime
from pathlib import Path

import pytest

from jobtrack.job.acts.said import NoteAct
from jobtrack.job.compose.draft import Draft
from jobtrack.store.file.writer import JobFile, create

AT = datetime(2031, 5, 12, 8, 0, tzinfo=UTC)
TEMPLATE = {
    "format": 1, "id": "one", "title": "One", "stage": {"only": {"title": "Only"}},
    "step": {"look": {"stage": "only", "title": "Look"}},
}  # fmt: skip


@pytest.fixture
def file(tmp_path: Path) -> JobFile:
    """A file whose state belongs to this thread."""
    found = create(tmp_path / "one.job.toml", "one", "One", TEMPLATE)
    found.kept_by(threading.get_ident())
    return found


def note(file: JobFile, text: str) -> None:
    draft = Draft(file.job, "Ada Prosser", AT)
    draft.add(NoteAct(text))
    file.append(draft.done(), draft.by, draft.at, id=draft.id)


def elsewhere(do: object) -> None:
    """Do something in another thread, to its end."""
    assert callable(do)
    thread = threading.Thread(target=do)
    thread.start()
    thread.join()


def notes(file: JobFile) -> list[str]:
    return [done.act.note for done in file.job.view.of_kind(NoteAct) if isinstance(done.act, NoteAct)]


def test_what_another_thread_reads_and_writes_waits(file: JobFile) -> None:
    """Followed and appended to elsewhere, the state stays as it is until the news are taken in, in their order."""
    note(JobFile(file.path), "by another program")
    before = file.job
    elsewhere(file.refresh)
    elsewhere(lambda: note(file, "by the other thread"))
    assert file.job is before
    news = file.news()
    assert file.news() == []
    file.take_in(news)
    assert notes(file) == ["by another program", "by the other thread"]
    assert notes(JobFile(file.path)) == notes(file)


def test_a_replaced_file_is_news_too(file: JobFile) -> None:
    """Read anew from its beginning elsewhere, the state is another only when it is taken in."""
    note(file, "kept")
    older = file.path.read_bytes()
    note(file, "gone")
    file.path.write_bytes(older)
    elsewhere(file.refresh)
    assert notes(file) == ["kept", "gone"]
    file.take_in(file.news())
    assert notes(file) == ["kept"]


def test_its_own_thread_has_it_at_once(file: JobFile) -> None:
    """The thread that shows the state needn't take anything in of what it has written itself."""
    note(file, "mine")
    assert notes(file) == ["mine"]
    assert file.news() == []
