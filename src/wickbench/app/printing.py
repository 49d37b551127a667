"""Labels onto paper: the PDF, the proof on plain paper, the calibration page, and the record."""

from __future__ import annotations

import hashlib
from functools import partial
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.calibrations import calibration_texts, correction
from wickbench.app.label_making import typeface_shelf
from wickbench.app.labels import freeze
from wickbench.app.texts_marker import N_
from wickbench.app.used_stickers import after_print
from wickbench.documents.calibration_page import draw_calibration_page
from wickbench.documents.pdf_file import write_pdf
from wickbench.documents.sheet_layout import draw_sheets
from wickbench.documents.typefaces import SANS
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Rank
from wickbench.storage import state

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from wickbench.app.print_run_view import RunView
    from wickbench.app.workspace import Workspace
    from wickbench.documents.surface import Surface

COUNTER: Final = "label_print"
SNAPSHOT_VERSION: Final = 1


def run_drawing(
    workspace: Workspace, view: RunView, *, proof: bool = False
) -> Callable[[Surface], None]:
    """What draws the run's sheets, corrected for its printer and tray.

    Raises:
        DomainError: ``print.nothing`` without labels, ``print.stopped`` when something stops it;
            a proof is only refused the former.
    """
    if view.pages is None or not view.sheets:
        raise DomainError("print.nothing")
    if not proof and not view.may_print:
        first = next(one for one in view.findings if one.rank is Rank.STOPS)
        raise DomainError("print.stopped", sentence=workspace.texts.say(first))
    fix = correction(workspace, view.run.printer, view.run.tray)
    return partial(draw_sheets, pages=view.pages, correction=fix, proof=proof)


def export_labels(workspace: Workspace, view: RunView, path: Path) -> int:
    """Write the run's PDF, record what was printed and freeze the labels; gives its number.

    Raises:
        DomainError: as `run_drawing`, and when the file cannot be written.
    """
    write_labels(workspace, view, path)
    return record_labels(workspace, view, path)


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


def record_labels(workspace: Workspace, view: RunView, path: Path | None = None) -> int:
    """Keep what went to paper, and freeze the labels that did; gives the print's number."""
    sha256 = hashlib.sha256(path.read_bytes()).hexdigest() if path is not None else None
    with workspace.unjournalled("print_runs") as connection:
        number = state.next_number(connection, COUNTER)
        state.record_print(
            connection,
            at_ms=workspace.clock.now_ms(),
            kind="labels",
            title=run_title(workspace, view),
            snapshot={"number": number, **snapshot(view)},
            file_name=path.name if path is not None else None,
            sha256=sha256,
        )
    fresh = {label.id: label for label in view.labels if not label.frozen}
    with workspace.step(N_("Print labels")) as connection:
        freeze(connection, list(fresh.values()))
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
    title = "".join(sign if sign.isalnum() or sign in " -" else "-" for sign in view_title(view))
    return f"{title or workspace.texts(N_('Labels'))} {workspace.clock.today():%Y-%m-%d}.pdf"


def view_title(view: RunView) -> str:
    """The run's first label."""
    return view.labels[0].name.strip()[:60] if view.labels else ""


def snapshot(view: RunView) -> dict[str, Any]:
    """What was printed, whole: sheet, stickers used, texts as they stood on each label."""
    sheet = view.sheet
    measures = {} if sheet is None else {name: getattr(sheet, name) for name in sheet.__slots__}
    return {
        "version": SNAPSHOT_VERSION,
        "run": view.run.id,
        "sheet": measures,
        "used": sorted(view.run.used),
        "printer": [view.run.printer, view.run.tray],
        "lines": [
            {
                "label": label.name,
                "label_version": [label.id, label.number],
                "candle": line.candle_id,
                "lot": line.lot_code,
                "count": line.count,
                "texts": [text.text for text in made.laid.texts],
            }
            for line, label, made in zip(view.lines, view.labels, view.made, strict=True)
        ],
        "stickers": [
            [one.sheet_no, one.index, one.entry]
            for one in (view.pages.placements if view.pages else ())
        ],
    }
