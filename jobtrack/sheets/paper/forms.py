"""The forms in which a sheet can be written, by the ending of its file."""

from __future__ import annotations

from jobtrack.sheets.paper.blocks import Sheet

ENDINGS = (".html", ".md", ".txt")


def written(sheet: Sheet, ending: str) -> bytes:
    """A sheet as the bytes of a file with one of these endings. What writes a form is imported then."""
    match ending:
        case ".html":
            from jobtrack.sheets.paper.html import html

            return html(sheet).encode()
        case ".md":
            from jobtrack.sheets.paper.markdown import markdown

            return markdown(sheet).encode()
        case ".txt":
            from jobtrack.sheets.paper.text import text

            return text(sheet).encode()
        case _:
            raise ValueError(f"no sheet ends in {ending!r}; one of {', '.join(ENDINGS)} does")
