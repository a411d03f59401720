"""`record`: one call, one entry."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path

from jobtrack.cli.record.act_from_option import put
from jobtrack.cli.record.options import Asked, split
from jobtrack.cli.record.when import when
from jobtrack.cli.saying import DONE, complain, say, typed_name
from jobtrack.job.acts.registry import OPTIONS
from jobtrack.job.compose.draft import Draft
from jobtrack.job.compose.refusal import SaidAlready
from jobtrack.job.compose.values import slips
from jobtrack.sheets.answer import against_lines, answer_lines
from jobtrack.sheets.words.about_file import locks_line, taken_up_line
from jobtrack.sheets.words.doing.effects import effect_lines
from jobtrack.sheets.words.sentences import tag_questions
from jobtrack.store.file.writer import Appended, JobFile
from jobtrack.store.machine import photos


def record(options: argparse.Namespace) -> int:
    """Compose the entry, make it durable, and say what was recorded and what follows from it."""
    file = JobFile(Path(options.jobfile))
    time = when(options.at, file.job)
    draft = Draft(file.meant, typed_name("--by", options.by), time.at, options.step)
    questions = _fill(draft, _in_order(getattr(options, "acts", None) or ()), file)
    try:
        did = draft.done()
    except SaidAlready as said:
        return _nothing_written(file, said)
    before = file.job
    appended = file.append(did, draft.by, time.at, id=draft.id, step=draft.step, typed_at=time.typed_at)
    _say_of_the_file(file, appended)
    for remark in time.remarks:
        complain(remark)
    for question in questions:
        complain(f"{question} It is recorded as typed; --undo takes it back.")
    say(f"Recorded{f' in {draft.step}' if draft.step else ''} by {draft.by}, {time.at:%Y-%m-%d %H:%M}.")
    answered = answer_lines(file.job, appended.entry)
    tags = tag_questions(before.all_open, file.job.all_open)
    for line in (
        *answered,
        *against_lines(before, file.job, draft.step),
        *effect_lines(before, file.job),
        *tags,
    ):
        say(line)
    return DONE


def _fill(draft: Draft, groups: Sequence[Sequence[Asked]], file: JobFile) -> list[str]:
    """Put the acts asked for into the draft; the likely slips among the readings, as questions."""
    questions: list[str] = []
    for same in groups:
        if same[0].option == "reading":
            typed = [split("reading", one.value) for one in same]
            questions += slips(draft, typed[0][0], [text for _, text in typed])
        if same[0].option == "photo":
            draft.add(photos.take(Path(same[0].value), file.real))
        else:
            put(draft, same)
    return questions


def _nothing_written(file: JobFile, said: SaidAlready) -> int:
    """Say that the record holds it already; what waits of it is recorded first, or that it isn't is said."""
    taken_up = file.take_up()
    if taken_up:
        say(taken_up_line(len(taken_up)))
    say(f"{said}.")
    return DONE


def _say_of_the_file(file: JobFile, appended: Appended) -> None:
    """What the append found in the file and did about it."""
    for line in locks_line(file):
        complain(line)
    if appended.taken_up:
        say(taken_up_line(len(appended.taken_up)))
    if appended.set_aside is not None:
        say(f"A torn end stood in the file; it was set aside in {appended.set_aside}")


def _in_order(asked: Sequence[Asked]) -> list[list[Asked]]:
    """The acts asked for, repeats of the same together, those that look back at the end."""
    groups: dict[object, list[Asked]] = {}
    for number, one in enumerate(sorted(asked, key=lambda one: OPTIONS[one.option][0].turn)):
        repeats = OPTIONS[one.option][0].repeats
        key = (one.option, split(one.option, one.value)[0]) if repeats else number
        groups.setdefault(key, []).append(one)
    return list(groups.values())
