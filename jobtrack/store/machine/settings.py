"""The settings file of a user: what the app goes by where neither an option nor a variable says otherwise."""

from pathlib import Path
from typing import Annotated, Any, Literal

from msgspec import Struct

from jobtrack.schema.marks import Matching, OneOf
from jobtrack.schema.problem import Key, Problem, in_words
from jobtrack.schema.values import LONGEST_NAME

LARGEST = 64 * 1024
"""Bytes of the largest settings file that is read."""
LONGEST_PATH = 4096
LOOKS = ("paper", "dark", "high-contrast")
UNITS = ("metric", "US")


class Settings(Struct, frozen=True):
    """The settings file, `settings.toml` in the user's configuration folder. Every key may be left out."""

    folder: Annotated[
        str | None,
        Matching(r"^(/|~(/|\\|$)|[A-Za-z]:[\\/]|\\\\)", 'a whole path in quotes, as "~/jobs"', LONGEST_PATH),
    ] = None
    """The folder of the jobs, where neither --folder nor JOBTRACK_FOLDER names one; `~` is the user's own folder."""
    by: Annotated[
        str | None,
        Matching(r"\S", f'a name in quotes of at most {LONGEST_NAME} characters, as "Wim"', LONGEST_NAME),
    ] = None
    """Who records in the app, where --by says nobody. Commands that record want --by each time."""
    photos: Annotated[
        str | None,
        Matching(
            r"^(/|~(/|\\|$)|[A-Za-z]:[\\/]|\\\\)", 'a whole path in quotes, as "~/pictures"', LONGEST_PATH
        ),
    ] = None
    """A folder in which photos arrive: each goes to the step in hand while the app is open."""
    looks: Annotated[Literal["paper", "dark", "high-contrast"] | None, OneOf(*LOOKS)] = None
    """How the app looks: dark ink on paper, light ink on dark, or white on black; paper where nothing is said."""
    units: Annotated[Literal["metric", "US"] | None, OneOf(*UNITS)] = None
    """The units in which the app says a value first; the template's where nothing is said."""
    motion: bool = True
    """Whether anything on the screen may move or blink by itself."""
    bell: bool = True
    """Whether the app rings when an open condition or a hold is about to be left behind."""
    keys: dict[str, str] = {}
    """Keys of the app as somebody wants them: the name of an action, and one key for it."""


class Found(Struct, frozen=True):
    """The settings that can be used, and one line for each mistake: file, line, what, how to mend it."""

    settings: Settings
    mistakes: tuple[str, ...] = ()
    path: Path | None = None
    lines: dict[Key, int] = {}
    """On which line each key stands, where the file was read."""

    def mistake(self, key: Key, why: str, mend: str) -> str:
        """One line for a mistake at a key that was found later on."""
        return _in_words(self.path, self.lines, Problem(key, why, mend))


def _in_words(path: Path | None, lines: dict[Key, int], problem: Problem) -> str:
    key = problem.key
    while key and key not in lines:
        key = key[:-1]
    return f"{path}:{lines.get(key, 1)}: {in_words(problem)}"


def settings_file() -> Path:
    """Where the user's settings stand, whether there are any or not."""
    import platformdirs

    return Path(platformdirs.user_config_dir("jobtrack", appauthor=False)) / "settings.toml"


def read_settings(path: Path | None = None) -> Found:
    """The settings of a file, by default the user's own; a mistake costs its own key alone, and never raises."""
    path = path or settings_file()
    try:
        with path.open("rb") as file:
            raw = file.read(LARGEST + 1)
    except FileNotFoundError:
        return Found(Settings())
    except OSError as error:
        return _nothing(f"{path}: can't be read: {error.strerror or error}; mend it or move it away")
    return _from_bytes(path, raw)


def _nothing(mistake: str) -> Found:
    return Found(Settings(), (mistake,))


# What reads a file is imported only where there is one: most have none, and the app is waiting to be drawn.
def _from_bytes(path: Path, raw: bytes) -> Found:
    from jobtrack.schema.bounds import UnreadableText, as_text

    if len(raw) > LARGEST:
        return _nothing(f"{path}: larger than {LARGEST // 1024} KiB; no settings need that, shorten it")
    try:
        text = as_text(raw, "no settings need")
    except UnreadableText as error:
        return _nothing(f"{path}:{error}")
    return _from_text(path, text)


def _from_text(path: Path, text: str) -> Found:
    import tomli

    from jobtrack.schema.stumbles import explain

    try:
        data = tomli.loads(text)
    except tomli.TOMLDecodeError as error:
        line, _, why, mend = explain(error)
        return _nothing(f"{path}:{line}: {why}; {mend}")
    except ValueError as error:
        return _nothing(f"{path}:1: a value that can't be read ({error}); shorten it")
    return _from_data(path, text, data)


def _from_data(path: Path, text: str, data: dict[str, Any]) -> Found:
    from jobtrack.schema.key_lines import places
    from jobtrack.schema.reader import read_record
    from jobtrack.schema.values import Shape

    shape = Shape()
    whole = read_record(Settings, shape, (), data)
    lines = {key: line for key, (line, _) in places(text).items()}
    if not isinstance(whole, Settings):
        whole = read_record(Settings, Shape(), (), _without(data, {one.key for one in shape.problems}))
    return Found(whole, tuple(_in_words(path, lines, one) for one in shape.problems), path, lines)


def _without(table: dict[str, Any], wrong: set[Key], above: Key = ()) -> dict[str, Any]:
    """A table without what is wrong in it, however deep."""
    return {
        name: _without(each, wrong, (*above, name)) if isinstance(each, dict) else each
        for name, each in table.items()
        if (*above, name) not in wrong
    }
