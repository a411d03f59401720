"""`schema`: the form of the files that people write, and of what `--json` prints, as JSON Schema."""

from __future__ import annotations

import argparse
import json
from difflib import get_close_matches
from typing import Any

from jobtrack.cli.saying import BAD_INPUT, DONE, BadInput, complain, say

NAMES = {
    "template": "a template file",
    "settings": "your settings file, which is looked at too: each mistake in it is one line on stderr, status 2",
    "show": "what `show JOBFILE --json` prints",
    "hours": "what `hours PATH --json` prints",
    "work-out": "what `work-out NAME KEY=VALUE --json` prints",
    "workings-out": "what `work-out --json` prints: all names by topic",
    "templates": "what `templates --json` prints",
    "proofread": "what `proofread TEMPLATE --json` prints",
}
"""The schemas that there are, in words."""


def schema(options: argparse.Namespace) -> int:
    """One schema, or the names of all."""
    if options.name is None:
        for name, what in NAMES.items():
            say(f"{name}: {what}")
        return DONE
    if options.name not in NAMES:
        near = get_close_matches(options.name, NAMES, 1)
        mend = f"did you mean {near[0]}?" if near else f"there are {', '.join(NAMES)}"
        raise BadInput(f"{options.name[:80]!r}: no such schema; {mend}")
    print(json.dumps(schema_of(options.name), ensure_ascii=True, indent=2))
    return _own_settings() if options.name == "settings" else DONE


def schema_of(name: str) -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of that name."""
    from jobtrack.schema.published import json_schema

    return json_schema(shape_of(name), f"jobtrack {name}")


def shape_of(name: str) -> Any:
    """What pydantic holds such data to."""
    if name in ("template", "settings"):
        return _file_shape(name)
    from jobtrack.sheets.as_json import shapes

    return {
        "show": shapes.Show,
        "hours": shapes.Hours,
        "work-out": shapes.WorkOut,
        "workings-out": shapes.WorkingsOut,
        "templates": shapes.Templates,
        "proofread": shapes.Proofread,
    }[name]


def _file_shape(name: str) -> Any:
    from jobtrack.schema.published import model_of
    from jobtrack.store.machine.settings import Settings
    from jobtrack.template.model import Template

    return model_of(Template if name == "template" else Settings)


def _own_settings() -> int:
    from jobtrack.app.own_keys import usable
    from jobtrack.store.machine.settings import read_settings

    _, mistakes = usable(read_settings())
    for line in mistakes:
        complain(line)
    return BAD_INPUT if mistakes else DONE
