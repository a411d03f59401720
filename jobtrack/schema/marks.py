"""What an annotation says beside the type: how a value is written in the file.

A class that is read says `Annotated[TYPE, MARK]` where the type alone doesn't tell; the reader and the published
schema both go by it. The classes here are plain, since they are made before the first frame.
"""


class Id:
    """A text that names something: small letters, digits and single hyphens."""


class OneOrMore:
    """A list, or one item without the brackets."""


class Rest:
    """A table of all keys of the class's table that no other field has."""


class Grouped:
    """A table of tables, in which some names stand together in a table of their own: `GROUP.NAME`."""


class InOrder:
    """A class's texts, one behind the other in a list."""

    def __init__(self, what: str, example: str) -> None:
        self.what, self.example = what, example


class TrueFor:
    """`true` stands for this text."""

    def __init__(self, text: str, wanted: str) -> None:
        self.text, self.wanted = text, wanted


class Keys:
    """A table of texts with exactly these keys, or a text."""

    def __init__(self, *keys: str, why: str, mend: str) -> None:
        self.keys, self.why, self.mend = keys, why, mend


class Formerly:
    """The key was called so; the old name is read in its place for one more version."""

    def __init__(self, old: str) -> None:
        self.old = old


class Only:
    """The one number that may stand here."""

    def __init__(self, number: int) -> None:
        self.number = number


class Matching:
    """A text of this pattern (Python's and JSON Schema's alike), at most so many characters long."""

    def __init__(self, pattern: str, wanted: str, longest: int) -> None:
        self.pattern, self.wanted, self.longest = pattern, wanted, longest


class OneOf:
    """One of these texts."""

    def __init__(self, *texts: str) -> None:
        self.texts = texts


class Says:
    """What is to be written where the key is missing, in words."""

    def __init__(self, words: str) -> None:
        self.words = words
