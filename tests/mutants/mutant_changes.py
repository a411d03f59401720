"""The changes that `plant.py` makes to a module's formulas and tables, one at a time, in the order of its lines.

Arithmetic and comparison operators, signs, `and`/`or`, branches, functions, the order of arguments, and every
number: by a hundredth of itself and at least by one in its last printed digit, so a table cell becomes another
cell and not a rounding of the same. Texts, messages, annotations and keys of results stay as they are.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

ARITHMETIC: dict[type[ast.operator], ast.operator] = {
    ast.Add: ast.Sub(), ast.Sub: ast.Add(), ast.Mult: ast.Div(), ast.Div: ast.Mult(),
    ast.Pow: ast.Mult(), ast.Mod: ast.Mult(), ast.FloorDiv: ast.Mult(),
}  # fmt: skip
COMPARISONS: dict[type[ast.cmpop], ast.cmpop] = {
    ast.Lt: ast.LtE(), ast.LtE: ast.Lt(), ast.Gt: ast.GtE(), ast.GtE: ast.Gt(), ast.Eq: ast.NotEq(),
    ast.NotEq: ast.Eq(), ast.In: ast.NotIn(), ast.NotIn: ast.In(), ast.Is: ast.IsNot(), ast.IsNot: ast.Is(),
}  # fmt: skip
SIGNS = {
    ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.Pow: "**", ast.Mod: "%", ast.FloorDiv: "//",
    ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=", ast.Eq: "==", ast.NotEq: "!=",
    ast.In: "in", ast.NotIn: "not in", ast.Is: "is", ast.IsNot: "is not",
}  # fmt: skip
FUNCTIONS = {
    "sin": "cos", "cos": "sin", "tan": "sin", "asin": "atan", "acos": "asin", "atan": "asin",
    "sqrt": "cbrt", "cbrt": "sqrt", "exp": "expm1", "log": "log1p", "hypot": "dist", "erf": "erfc",
    "degrees": "radians", "radians": "degrees", "ceil": "floor", "floor": "ceil", "pi": "e",
    "min": "max", "max": "min", "any": "all", "all": "any",
}  # fmt: skip
ANY_ORDER = {"isinstance", "max", "min", "hypot", "gcd"}
"""Functions whose arguments may stand in any order, and one that asks for a type."""
SKIPPED = (ast.JoinedStr, ast.Raise, ast.Import, ast.ImportFrom)
NUMBER = re.compile(r"#?\d*\.?\d+(/\d+)?")
TINY = 1e-6
"""A tolerance up to this has to grow a millionfold to matter."""


@dataclass(slots=True)
class Change:
    """A node of a module's tree and what stands in its place while the change is planted."""

    line: int
    what: str
    owner: ast.stmt
    """The function, or the statement of the module, that holds it."""
    parent: ast.AST
    field: str
    index: int | None
    old: ast.AST
    new: ast.AST

    def plant(self) -> None:
        """Put the change into the tree."""
        self._put(self.new)

    def take_out(self) -> None:
        """Put the old node back."""
        self._put(self.old)

    def _put(self, node: ast.AST) -> None:
        if self.index is None:
            setattr(self.parent, self.field, node)
        else:
            getattr(self.parent, self.field)[self.index] = node


def changes(tree: ast.Module) -> list[Change]:
    """Every change to this module."""
    found = [change for place in _places(tree) for change in _planned(*place)]
    return sorted(found, key=lambda change: change.line)


Place = tuple[ast.AST, ast.AST, str, int | None, ast.stmt | None]
"""A node, its parent, the parent's field and place in it, and the owner."""


def _places(node: ast.AST, owner: ast.stmt | None = None) -> Iterator[Place]:
    for field, value in ast.iter_fields(node):
        if field in ("annotation", "returns"):
            continue
        children = list(enumerate(value)) if isinstance(value, list) else [(None, value)]
        for index, child in children:
            if not isinstance(child, ast.AST) or _is_passed_over(child, node, field):
                continue
            holds = isinstance(node, ast.Module | ast.ClassDef) and isinstance(child, ast.stmt)
            inner = child if holds and isinstance(child, ast.stmt) else owner
            yield child, node, field, index, inner
            yield from _places(child, inner)


def _is_passed_over(child: ast.AST, node: ast.AST, field: str) -> bool:
    if isinstance(child, SKIPPED) or (isinstance(child, ast.Expr) and isinstance(child.value, ast.Constant)):
        return True
    if isinstance(node, ast.ClassDef):
        return not isinstance(child, ast.FunctionDef)
    if field == "decorator_list":
        return "may_take" not in ast.dump(child)
    return (
        isinstance(node, ast.Call)
        and _called(node) == "working_out"
        and field == "keywords"
        and not (isinstance(child, ast.keyword) and child.arg == "inputs")
    )


def _called(node: ast.Call) -> str:
    return ast.unparse(node.func).split(".")[-1]


def _planned(
    node: ast.AST, parent: ast.AST, field: str, index: int | None, owner: ast.stmt | None
) -> Iterator[Change]:
    for what, new in _alternatives(node, in_table=isinstance(owner, ast.Assign | ast.AnnAssign)):
        assert isinstance(node, ast.expr)
        assert owner is not None
        ast.copy_location(new, node)
        yield Change(node.lineno, what, owner, parent, field, index, node, ast.fix_missing_locations(new))


def _alternatives(node: ast.AST, *, in_table: bool) -> Iterator[tuple[str, ast.expr]]:
    if isinstance(node, ast.BinOp) and type(node.op) in ARITHMETIC and not _is_text(node):
        op = ARITHMETIC[type(node.op)]
        yield _between(node.left, node.op, op, node.right), ast.BinOp(node.left, op, node.right)
    elif isinstance(node, ast.Compare):
        yield from _compared(node)
    elif isinstance(node, ast.BoolOp):
        other = ast.And() if isinstance(node.op, ast.Or) else ast.Or()
        new: ast.expr = ast.BoolOp(other, node.values)
        yield _told(node, new), new
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub | ast.Not):
        yield _told(node, node.operand), node.operand
    elif isinstance(node, ast.IfExp):
        yield f"branches of {ast.unparse(node)} swapped", ast.IfExp(node.test, node.orelse, node.body)
    elif isinstance(node, ast.Attribute | ast.Name):
        yield from _named(node)
    elif isinstance(node, ast.Call):
        yield from _reordered(node)
    elif isinstance(node, ast.Constant):
        value = _other(node.value, in_table=in_table)
        if value is not None:
            yield f"{node.value!r} -> {value!r}", ast.Constant(value)


def _told(old: ast.expr, new: ast.expr) -> str:
    return f"{ast.unparse(old)} -> {ast.unparse(new)}"


def _between(left: ast.expr, old: ast.AST, new: ast.AST, right: ast.expr) -> str:
    before, after = ast.unparse(left), ast.unparse(right)
    return f"{before[-30:]} {SIGNS[type(old)]} {after[:30]}: {SIGNS[type(new)]}"


def _is_text(node: ast.BinOp) -> bool:
    sides = (node.left, node.right)
    return any(
        isinstance(side, ast.JoinedStr | ast.List)
        or (isinstance(side, ast.Constant) and isinstance(side.value, str))
        for side in sides
    )


def _compared(node: ast.Compare) -> Iterator[tuple[str, ast.expr]]:
    terms = [node.left, *node.comparators]
    for at, op in enumerate(node.ops):
        ops = list(node.ops)
        ops[at] = COMPARISONS[type(op)]
        told = _between(terms[at], op, ops[at], terms[at + 1])
        yield told, ast.Compare(node.left, ops, node.comparators)


def _named(node: ast.Attribute | ast.Name) -> Iterator[tuple[str, ast.expr]]:
    if isinstance(node, ast.Name):
        if node.id in ("min", "max", "any", "all"):
            new = FUNCTIONS[node.id]
            yield f"{node.id} -> {new}", ast.Name(new, node.ctx)
    elif isinstance(node.value, ast.Name) and node.value.id == "math" and node.attr in FUNCTIONS:
        new = FUNCTIONS[node.attr]
        yield f"math.{node.attr} -> math.{new}", ast.Attribute(node.value, new, node.ctx)


def _reordered(node: ast.Call) -> Iterator[tuple[str, ast.expr]]:
    if _called(node) in ANY_ORDER or any(isinstance(arg, ast.Starred) for arg in node.args):
        return
    for at in range(len(node.args) - 1):
        pair = node.args[at : at + 2]
        if any(isinstance(arg, ast.Constant) and isinstance(arg.value, str) for arg in pair):
            continue
        args = [*node.args[:at], *reversed(pair), *node.args[at + 2 :]]
        told = ", ".join(ast.unparse(arg) for arg in pair)
        yield f"{_called(node)}: {told} the other way round", ast.Call(node.func, args, node.keywords)


def _other(value: object, *, in_table: bool) -> bool | int | float | str | None:
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return int(_moved(Decimal(value)))
    if isinstance(value, float):
        return value * 1e6 if value <= TINY else float(_moved(Decimal(repr(value))))
    if isinstance(value, str) and NUMBER.fullmatch(value):
        return _other_text(value)
    if isinstance(value, str) and in_table and re.fullmatch("[A-Y]", value):
        return chr(ord(value) + 1)
    return None


def _other_text(value: str) -> str:
    if value.startswith("#"):
        return f"#{int(value[1:]) + 1}"
    if "/" in value:
        over, under = value.split("/")
        return f"{int(over) + 1}/{under}"
    return str(_moved(Decimal(value)))


def _moved(value: Decimal) -> Decimal:
    step = Decimal(1).scaleb(min(int(value.as_tuple().exponent), 0))
    hundredth = (abs(value) / 100 / step).to_integral_value(ROUND_CEILING) * step
    return value + max(step, hundredth)
