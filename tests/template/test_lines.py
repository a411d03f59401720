"""Where keys stand in a file, held against an independent syntax tree where that knows the grammar."""

from __future__ import annotations

import tomli
import tree_sitter
import tree_sitter_toml

from jobtrack.schema.key_lines import place_of, places
from tests.support.exchange import EXCHANGE
from tests.support.mistakes import SOUND


def test_keys_of_a_table_over_several_lines_have_their_own_lines() -> None:
    """TOML 1.1: an inline table may go over several lines, with comments and a comma at the end."""
    text = """a.b = { x = 1, # {
  y = [ { z = 1 }, "]" ],

  "w.v" = '''
}
''', }
[c]
d = 2031-04-02 10:00:00
e = 1
"""
    assert tomli.loads(text)
    found = places(text)
    assert found["a", "b", "x"] == (1, 9)
    assert found["a", "b", "y"] == (2, 3)
    assert found["a", "b", "w.v"] == (4, 3)
    assert (found["c",], found["c", "d"], found["c", "e"]) == ((7, 2), (8, 1), (9, 1))


def test_a_missing_key_has_the_place_of_its_table() -> None:
    """Where a key isn't written, the table that should hold it is named, at last the first line."""
    found = places("[step.cut]\ntitle = 1\n")
    assert place_of(("step", "cut", "stage"), found) == (1, 2)
    assert place_of(("id",), found) == (1, 1)


def test_every_key_of_a_large_template_has_a_place() -> None:
    """All keys that the parser finds have a place, and the text there is that key."""
    text = EXCHANGE.read_text("utf-8")
    found, lines = places(text), text.split("\n")
    keys = list(_keys(tomli.loads(text), ()))
    assert len(keys) > 500
    for key in keys:
        line, column = found[key]
        assert key[-1] in lines[line - 1][column - 1 :]


def _keys(table: dict[str, object], above: tuple[str, ...]) -> list[tuple[str, ...]]:
    found = []
    for name, value in table.items():
        found.append((*above, name))
        found += _keys(value, (*above, name)) if isinstance(value, dict) else []
    return found


def test_places_agree_with_a_syntax_tree() -> None:
    """tree-sitter's grammar (TOML 1.0) finds the same lines and columns, no more and no fewer."""
    text = SOUND.read_text("utf-8")
    parser = tree_sitter.Parser(tree_sitter.Language(tree_sitter_toml.language()))
    tree = parser.parse(text.encode())
    assert not tree.root_node.has_error
    expected = set(_written(tree.root_node))
    assert len(expected) > 50
    assert set(places(text).values()) == expected


def _written(node: tree_sitter.Node) -> list[tuple[int, int]]:
    """Where pairs begin, and the names in the headers of tables, one behind the bracket."""
    line, column = node.start_point.row + 1, node.start_point.column + 1
    own = {"pair": [(line, column)], "table": [(line, column + 1)]}.get(node.type, [])
    return own + [place for child in node.children for place in _written(child)]
