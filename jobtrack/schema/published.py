"""pydantic models and JSON Schema of annotated classes, for those who write such files and for their editors.

The models are made of the same annotations that `reader.py` goes by, and say yes and no to the same tables. Only
`jobtrack schema` and the tests import this module: pydantic costs more to start than all of a plain command.
"""

from __future__ import annotations

import ast
import inspect
from functools import lru_cache
from itertools import pairwise
from textwrap import dedent
from types import GenericAlias
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from msgspec import Struct
from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    StringConstraints,
    TypeAdapter,
    create_model,
    model_validator,
)
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from jobtrack.schema import marks
from jobtrack.schema.fields import FieldOf, fields_of, mark_of, marks_of, members_of
from jobtrack.schema.values import ID, LARGEST_NUMBER, LONGEST_NAME, LONGEST_TEXT


def _short(text: str) -> str:
    if len(text.encode()) > LONGEST_TEXT:
        raise ValueError(f"a text longer than {LONGEST_TEXT} bytes")
    return text


def _is_true(value: bool) -> bool:
    if not value:
        raise ValueError("false says nothing here")
    return value


_BOUNDS = {"ge": -LARGEST_NUMBER, "le": LARGEST_NUMBER}
_Text = Annotated[str, StringConstraints(max_length=LONGEST_TEXT), AfterValidator(_short)]
_Whole = Annotated[int, Field(**_BOUNDS)]
_Number = Annotated[float, Field(allow_inf_nan=False, **_BOUNDS)]
_Id = Annotated[str, StringConstraints(pattern=f"^{ID}$", max_length=LONGEST_NAME)]
_True = Annotated[bool, AfterValidator(_is_true), Field(json_schema_extra={"const": True})]
_PLAIN: dict[Any, Any] = {str: _Text, int: _Whole, float: _Number, bool: bool}


class Written(BaseModel):
    """A table in a file: no key that isn't known, no value of another kind."""

    model_config = ConfigDict(strict=True, extra="forbid")


@lru_cache
def model_of(cls: type[Struct]) -> type[BaseModel]:
    """The model of a class's table as it is written: keys as in the file, lists for tuples."""
    told = _told_under_fields(cls)
    known = fields_of(cls)
    rest = next((one for one in known if mark_of(one.kind, marks.Rest)), None)
    fields = {one.name: _field(one, told.get(one.name)) for one in known if one is not rest}
    old = {mark.old: one for one in known if (mark := mark_of(one.kind, marks.Formerly))}
    fields |= {name: _old_field(name, one) for name, one in old.items()}
    base = _with_rest(rest) if rest else _either(old) if old else Written
    return create_model(cls.__name__, __base__=base, __doc__=cls.__doc__ or "", **fields)


def _told_under_fields(cls: type) -> dict[str, str]:
    """By field, the text in quotes right under it, which Python doesn't keep; empty where the source isn't at hand."""
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


def _field(one: FieldOf, told: str | None) -> Any:
    default: Any = (
        ... if one.required else list(one.default) if isinstance(one.default, tuple) else one.default
    )
    return typed(one.kind), Field(default, alias=one.key, description=told)


def _old_field(old: str, one: FieldOf) -> Any:
    return typed(one.kind), Field(
        None, description=f"As {one.key} was called; to be written {one.key}.", deprecated=True
    )


def _either(old: dict[str, FieldOf]) -> type[Written]:
    """A table in which a key's old and new name don't stand together."""
    pairs = [{one.key, name} for name, one in old.items()]
    together: Any = [{"required": sorted(one)} for one in pairs]

    class Either(Written):
        model_config = ConfigDict(json_schema_extra={"not": {"anyOf": together}})

        @model_validator(mode="before")
        @classmethod
        def _not_both(cls, table: Any) -> Any:
            if isinstance(table, dict) and any(one <= table.keys() for one in pairs):
                raise ValueError("a key stands here by its old and its new name")
            return table

    return Either


def _with_rest(rest: FieldOf) -> type[Written]:
    """A table whose other keys all hold what the field for them says."""
    values = get_args(next(iter(members_of(rest.kind))))[1]
    annotations = {"__pydantic_extra__": GenericAlias(dict, (str, typed(values)))}
    spaces = {
        "__annotations__": annotations,
        "model_config": ConfigDict(extra="allow"),
        "__module__": __name__,
    }
    return type("Open", (Written,), spaces)


def typed(kind: Any) -> Any:
    """An annotation as pydantic understands it, with the bounds and ways of writing that the reader knows."""
    for mark in marks_of(kind):
        if made := _MARKED.get(type(mark)):
            return made(next(iter(members_of(kind))), mark)
    members = members_of(kind)
    if {float, int} <= members:
        members -= {int}
    return _any_of(*(_one(each) for each in sorted(members, key=str)))


def _one(kind: Any) -> Any:
    if kind in _PLAIN:
        return _PLAIN[kind]
    if isinstance(kind, type) and issubclass(kind, Struct):
        return model_of(kind)
    inner = get_args(kind)
    return GenericAlias(list if get_origin(kind) is tuple else dict, tuple(map(typed, _items(inner))))


def _items(inner: tuple[Any, ...]) -> tuple[Any, ...]:
    """The kinds of what a table or a list holds: a list's annotation ends with dots."""
    return inner[:1] if inner[-1] is ... else inner


def _any_of(*kinds: Any) -> Any:
    return Union[kinds]  # noqa: UP007


def _in_order(cls: type[Struct], mark: marks.InOrder) -> Any:
    count = len(fields_of(cls))
    return Annotated[list[_Text], Field(min_length=count, max_length=count, description=cls.__doc__)]


def _keys(kind: Any, mark: marks.Keys) -> Any:
    both: Any = dict.fromkeys(mark.keys, (_Text, ...))
    return _any_of(
        _Text, create_model("And".join(key.title() for key in mark.keys), __base__=Written, **both)
    )


def _grouped(kind: Any, mark: marks.Grouped) -> Any:
    table: Any = model_of(get_args(kind)[1])
    return dict[_Id, table | dict[_Id, table]]


_MARKED: dict[type[Any], Any] = {
    marks.Id: lambda kind, mark: _Id,
    marks.OneOrMore: lambda kind, mark: _any_of(_one(kind), typed(get_args(kind)[0])),
    marks.InOrder: _in_order,
    marks.Keys: _keys,
    marks.TrueFor: lambda kind, mark: _any_of(_Text, _True),
    marks.Only: lambda kind, mark: Annotated[int, Field(ge=mark.number, le=mark.number)],
    marks.Matching: lambda kind, mark: Annotated[
        str, StringConstraints(pattern=mark.pattern, max_length=mark.longest)
    ],
    marks.OneOf: lambda kind, mark: Literal[mark.texts],
    marks.Grouped: _grouped,
}


class Plainly(GenerateJsonSchema):
    """A JSON Schema without what pydantic adds for itself: titles made of names, defaults that are null."""

    def field_title_should_be_set(self, schema: Any) -> bool:
        """A key is its own title."""
        return False

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        """A default that is null is none: no file can say it."""
        found = super().default_schema(schema)
        if found.get("default") is None:
            found.pop("default", None)
        return found

    def dict_schema(self, schema: core_schema.DictSchema) -> JsonSchemaValue:
        """Keys are held to their pattern: pydantic's own `patternProperties` lets all others through."""
        found = super().dict_schema(schema)
        for pattern, values in found.pop("patternProperties", {}).items():
            found |= {"propertyNames": {"pattern": pattern}, "additionalProperties": values}
        return found


def json_schema(shape: Any, title: str) -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a model, or of lists and tables of models."""
    made = TypeAdapter(shape).json_schema(by_alias=True, schema_generator=Plainly)
    return {"$schema": Plainly.schema_dialect, **made, "title": title}
