"""Labels onto paper: the PDF, the proof on plain paper, the calibration page, and the record."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.calibrations import calibration_texts, correction
from wickbench.app.file_names import file_name
from wickbench.app.label_making import typeface_shelf
from wickbench.app.label_store import label_of
from wickbench.app.labels import freeze
from wickbench.app.print_jobs import PrintJob, Record, done_at_once, written
from wickbench.app.print_snapshots import keep_print, snapshot
from wickbench.app.texts_marker import N_
from wickbench.app.used_stickers import after_print
from wickbench.documents.calibration_page import draw_calibration_page
from wickbench.documents.kept_drawing import KeepingSurface
from wickbench.documents.pdf_file import write_pdf
from wickbench.documents.sheet_layout import draw_sheet, draw_sheets
from wickbench.documents.typefaces import SANS
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Rank

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from wickbench.app.print_run_view import RunView
    from wickbench.app.workspace import Workspace
    from wickbench.documents.sheet_layout import SheetPages
    from wickbench.documents.surface import Surface

_LONGEST_NAME: Final = 80


def run_drawing(
    workspace: Workspace, view: RunView, *, proof: bool = False
) -> Callable[[Surface], None]:
    """What draws the run's sheets, corrected for its printer and tray.

    Raises:
        DomainError: ``print.nothing`` without labels, ``print.stopped`` when something stops it;
            a proof is only refused the former.
    """
    pages = printable(workspace, view, proof=proof)
    fix = correction(workspace, view.run.printer, view.run.tray)
    return partial(draw_sheets, pages=pages, correction=fix, proof=proof)


def printable(workspace: Workspace, view: RunView, *, proof: bool = False) -> SheetPages:
    """The placed run, when there is something to print and nothing that stops it.

    Raises:
        DomainError: as `run_drawing`.
    """
    if view.pages is None or not view.sheets:
        raise DomainError("print.nothing")
    if not proof and not view.may_print:
        first = next(one for one in view.findings if one.rank is Rank.STOPS)
        raise DomainError("print.stopped", sentence=workspace.texts.say(first))
    return view.pages


def export_labels(workspace: Workspace, view: RunView, path: Path) -> int:
    """Write the run's PDF, record what was printed and freeze the labels; gives its number.

    Raises:
        DomainError: as `run_drawing`, and when the file cannot be written.
    """
    number = done_at_once(written(run_job(workspace, view), path))
    return 0 if number is None else number


def write_labels(workspace: Workspace, view: RunView, path: Path, *, proof: bool = False) -> Path:
    """Write the run's PDF; a proof shows the edges of the stickers and is not recorded.

    Raises:
        DomainError: as `run_drawing`, and when the file cannot be written.
    """
    draw = run_drawing(workspace, view, proof=proof)
    return write_pdf(
        path,
        draw,
        title=run_title(workspace, view),
        language=workspace.settings.text("language_of_labels") or "en",
        author=workspace.settings.text("business_name"),
    )


def run_job(workspace: Workspace, view: RunView, *, proof: bool = False) -> PrintJob:
    """The run as a job that is drawn page by page; a proof is not recorded.

    Raises:
        DomainError: as `run_drawing`.
    """
    pages = printable(workspace, view, proof=proof)
    fix = correction(workspace, view.run.printer, view.run.tray)
    sheets = pages.sheet_numbers
    draw = partial(draw_sheet, pages=pages)
    return PrintJob(
        title=run_title(workspace, view),
        page_mm=(pages.sheet.page_w_mm, pages.sheet.page_h_mm),
        language=workspace.settings.text("language_of_labels") or "en",
        author=workspace.settings.text("business_name"),
        draws=tuple(partial(draw, sheet_no=at, correction=fix, proof=proof) for at in sheets),
        kept=() if proof else tuple(partial(draw, sheet_no=at) for at in sheets),
        record=None if proof else _recorder(workspace, view),
        stickers=len(pages.placements),
    )


def _recorder(workspace: Workspace, view: RunView) -> Record:
    return partial(record_labels, workspace, view, printed=snapshot(workspace, view))


def record_labels(
    workspace: Workspace,
    view: RunView,
    path: Path | None = None,
    keeping: KeepingSurface | None = None,
    *,
    printed: dict[str, Any] | None = None,
) -> int:
    """Keep what went to paper, and freeze the labels that did; gives the print's number.

    Args:
        workspace: the open workshop.
        view: what was printed.
        path: the file, if it is one.
        keeping: the pages as kept while they were drawn; drawn now when not given.
        printed: what the labels were made of when drawing began; as they are now when not given.
    """
    if keeping is None:
        keeping = KeepingSurface()
        pages = printable(workspace, view, proof=True)
        for sheet_no in pages.sheet_numbers:
            draw_sheet(keeping, pages, sheet_no)
    whole = dict(printed if printed is not None else snapshot(workspace, view))
    whole["drawing"] = keeping.kept()
    number = keep_print(workspace, run_title(workspace, view), whole, path, keeping.pictures)
    fresh = {label.id: label for label in view.labels if not label.frozen}
    with workspace.step(N_("Print labels")) as connection:
        # A label that was changed while it was printed is another one now; what went to paper is
        # in the record.
        freeze(connection, [one for one in fresh.values() if label_of(connection, one.id) == one])
        after_print(connection, view)
    return number


def write_calibration_page(workspace: Workspace, page_mm: tuple[float, float], path: Path) -> Path:
    """Write the page with the bar and the four crosshairs, uncorrected.

    Raises:
        DomainError: when the file cannot be written.
    """
    language = workspace.settings.text("language_of_papers") or "en"
    words = calibration_texts(workspace.texts.in_language(language))
    face, _ = typeface_shelf().nearest(SANS)

    def draw(surface: Surface) -> None:
        draw_calibration_page(surface, *page_mm, face, words)

    return write_pdf(path, draw, title=words.title, language=language)


def run_title(workspace: Workspace, view: RunView) -> str:
    """What the document is called: its labels, or the run's own name."""
    names = dict.fromkeys(label.name for label in view.labels)
    return view.run.name or ", ".join(names) or workspace.texts(N_("Labels"))


def suggested_name(workspace: Workspace, view: RunView) -> str:
    """A file name to begin with: what it is and the day."""
    title = file_name(run_title(workspace, view))[:_LONGEST_NAME].strip()
    return f"{title or workspace.texts(N_('Labels'))} {workspace.clock.today():%Y-%m-%d}.pdf"
