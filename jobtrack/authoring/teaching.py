"""The comments in a template that is begun: what each part of it is for, where it stands first."""

from __future__ import annotations

from typing import Any

from jobtrack.authoring.layout import Notes
from jobtrack.schema.problem import Key
from jobtrack.template.checks.meaning.kinds import KINDS

HEAD = (
    "Where … stands, something is still to be written: `jobtrack proofread` lists it, and what else is doubtful.",
    "`jobtrack rehearse` walks the template with nothing recorded. An editor that knows JSON Schema completes the",
    "keys: `jobtrack schema template`.",
)
OF_TABLES: dict[str, list[str]] = {
    "ask_first": [
        "Open from the beginning of the job; closed by who was asked, when, and the answer in their words."
    ],
    "vehicle": ["What each of the two is, in words. Their names are asked in each job."],
    "condition": [
        "Open from the first act of a step that opens it until a step that closes it is finished. The tag goes to the",
        "steering wheel; passes_to names the line of due_afterwards that it becomes when the job is closed.",
    ],
    "stage": [
        'A stage waits for all above it; after = ["…"] names those that it really waits for. for_each = "side" does',
        "its steps once for each of the set, one_by_one = true one side after the other.",
    ],
}
OF_FIRST_STEP = (
    'do: what to do, in short sentences. There are also tools = ["…"], people = 2, minutes = [10, 20, 40] (short,',
    'likely, long), hold = { ask = "…" } where somebody else looks, part.ID, torque.ID, weld.ID and work_out.ID.',
)
READING = (
    "An example: the unit, the instrument and its own doubt; what it should be, and how far off it may be. Or",
    "at_least, at_most, or record_only = true. source says whose limit it is; without one it is this template's own.",
)
TICK = "An example: something looked at; yes is what is wanted."


def comments(data: dict[str, Any]) -> Notes:
    """What stands above which key."""
    notes: dict[Key, list[str]] = {(): [f"{data['title']}.", *HEAD]}
    notes |= {(name,): lines for name, lines in OF_TABLES.items() if name in data}
    first = next(iter(data["step"]))
    notes[("step", first)] = list(OF_FIRST_STEP)
    if "reading" in data["step"][first]:
        notes[("step", first, "reading")] = list(READING)
        notes[("step", first, "tick")] = [TICK]
    for id, step in data["step"].items():
        if "hazard" in step:
            kinds = " and ".join(KINDS[kind].phrase for kind in step["does"])
            said = f"The usual words for a step that {kinds}: read them, and change them to this one's."
            notes[("step", id, "hazard")] = [said]
    return notes
