"""Something that goes to paper page by page, so that it shows progress and can be stopped."""

from __future__ import annotations

from collections.abc import Callable, Generator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from wickbench.documents.kept_drawing import KeepingSurface
from wickbench.documents.pdf_file import write_pages
from wickbench.documents.surface import Surface

if TYPE_CHECKING:
    from collections.abc import Iterator

Draw = Callable[[Surface], None]
Record = Callable[[Path | None, KeepingSurface], int]
Work = Generator[int, None, int | None]
"""Gives after each page how many are done; returns the number of the print, if it is recorded."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintJob:
    """Pages to be written or printed.

    Attributes:
        title: what the document is called.
        page_mm: width and height of its pages.
        draws: draws one page each, corrected for the printer.
        kept: draws one page each as it is kept; none for what is not recorded.
        record: keeps the print once it is out; ``None`` for what is not recorded.
        stickers: how many labels it prints.
        language: BCP 47.
        author: name of the business.
    """

    title: str
    page_mm: tuple[float, float]
    draws: tuple[Draw, ...]
    kept: tuple[Draw, ...] = ()
    record: Record | None = None
    stickers: int = 0
    language: str = ""
    author: str = ""


def written(job: PrintJob, path: Path) -> Work:
    """Write a job's PDF and record it; stopped before its end it leaves and records nothing.

    Raises:
        DomainError: as `wickbench.documents.pdf_file.write_pages`.
    """
    pages = write_pages(path, job.draws, title=job.title, language=job.language, author=job.author)
    return recorded(job, pages, path)


def recorded(job: PrintJob, pages: Iterator[int], path: Path | None = None) -> Work:
    """Do the pages, keep each as it was drawn, and record the print when all are done."""
    keeping = KeepingSurface()
    for done in pages:
        for draw in job.kept[done - 1 : done]:
            draw(keeping)
        yield done
    return job.record(path, keeping) if job.record is not None else None


def done_at_once(work: Work) -> int | None:
    """Do all of it; gives the number of the print, if it was recorded."""
    while True:
        try:
            next(work)
        except StopIteration as end:
            number: int | None = end.value
            return number
