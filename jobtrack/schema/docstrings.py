"""The words that stand under the fields of a class, which Python itself doesn't keep."""

from __future__ import annotations

import ast
import inspect
from itertools import pairwise
from textwrap import dedent


def docstrings_of(cls: type) -> dict[str, str]:
    """By field, the text in quotes right under it; empty where the source isn't at hand."""
    try:
        source = dedent(inspect.getsource(cls))
    except (OSError, TypeError):
        return {}
    body = ast.parse(source).body[0]
    assert isinstance(body, ast.ClassDef)
    return {
        field.target.id: " ".join(under.value.value.split())
        for field, under in pairwise(body.body)
        if isinstance(field, ast.AnnAssign) and isinstance(field.target, ast.Name)
        and isinstance(under, ast.Expr) and isinstance(under.value, ast.Constant)
        and isinstance(under.value.value, str)
    }  # fmt: skip
