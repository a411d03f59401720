"""The settings file of a user: what the app goes by where neither an option nor a variable says otherwise."""

from pathlib import Path
from typing import Annotated, Any

from msgspec import Struct

from jobtrack.schema.marks import Matching
from jobtrack.schema.values import LONGEST_NAME

LARGEST = 64 * 1024
"""Bytes of the largest settings file that is read."""
LONGEST_PATH = 4096


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


class Found(Struct, frozen=True):
    """The settings that can be used, and one line for each mistake: file, line, what, how to mend it."""

    settings: Settings
    mistakes: tuple[str, ...] = ()


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
    from jobtrack.schema.key_lines import place_of, places
    from jobtrack.schema.problem import in_words
    from jobtrack.schema.reader import read_record
    from jobtrack.schema.values import Shape

    shape = Shape()
    whole = read_record(Settings, shape, (), data)
    if isinstance(whole, Settings):
        return Found(whole)
    where = places(text)
    wrong = {problem.key[0] for problem in shape.problems}
    sound = read_record(Settings, Shape(), (), {key: each for key, each in data.items() if key not in wrong})
    mistakes = (f"{path}:{place_of(one.key, where)[0]}: {in_words(one)}" for one in shape.problems)
    return Found(sound, tuple(mistakes))
