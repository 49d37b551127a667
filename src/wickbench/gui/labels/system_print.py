"""Sheets sent to a printer by the system's own dialog, drawn as on the PDF."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QMarginsF, QSizeF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QAbstractPrintDialog, QPrintDialog, QPrinter

from wickbench.domain.errors import DomainError
from wickbench.gui.painting import ScreenSurface

if TYPE_CHECKING:
    from collections.abc import Callable, Generator, Sequence

    from PySide6.QtWidgets import QWidget

    from wickbench.documents.surface import Surface

_MM_PER_INCH = 25.4


def made_printer(width_mm: float, height_mm: float, title: str) -> QPrinter:
    """A printer whose page is exactly this size, without margins of its own."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setDocName(title)
    fit_page(printer, width_mm, height_mm)
    return printer


def fit_page(printer: QPrinter, width_mm: float, height_mm: float) -> None:
    """Give a printer the page: all of it, upright, at actual size."""
    printer.setFullPage(True)
    size = QSizeF(width_mm, height_mm)
    page = QPageSize(size, QPageSize.Unit.Millimeter, "", QPageSize.SizeMatchPolicy.FuzzyMatch)
    printer.setPageSize(page)
    printer.setPageOrientation(QPageLayout.Orientation.Portrait)
    printer.setPageMargins(QMarginsF(0, 0, 0, 0), QPageLayout.Unit.Millimeter)


def asked_printer(printer: QPrinter, parent: QWidget, page_mm: tuple[float, float]) -> bool:
    """Show the system's dialog; says whether to print. The page stays what it was."""
    dialog = QPrintDialog(printer, parent)
    dialog.setOption(QAbstractPrintDialog.PrintDialogOption.PrintPageRange, on=False)
    accepted = dialog.exec() == QPrintDialog.DialogCode.Accepted
    fit_page(printer, *page_mm)
    return accepted


def print_drawing(printer: QPrinter, draw: Callable[[Surface], None]) -> bool:
    """Draw everything on a printer at once; says whether the printer took it."""
    try:
        for _ in printed_pages(printer, (draw,)):
            pass
    except DomainError:
        return False
    return True


def printed_pages(
    printer: QPrinter, draws: Sequence[Callable[[Surface], None]]
) -> Generator[int, None, None]:
    """Draw on a printer page by page; gives after each how many are drawn.

    Whoever stops before the end takes the whole print back.

    Raises:
        DomainError: ``print.not-taken``.
    """
    painter = QPainter()
    if not painter.begin(printer):
        raise DomainError("print.not-taken")

    def next_page(_width_mm: float, _height_mm: float) -> None:
        printer.newPage()

    scale = printer.resolution() / _MM_PER_INCH
    surface = ScreenSurface(painter, scale, page=None, next_page=next_page)
    whole = False
    try:
        for done, draw in enumerate(draws, 1):
            draw(surface)
            yield done
        whole = True
    finally:
        surface.finish()
        ended = _ended(printer, painter, whole=whole)
    if not ended:
        raise DomainError("print.not-taken")


def _ended(printer: QPrinter, painter: QPainter, *, whole: bool) -> bool:
    """End the print, or take it back; a file begun by the printer goes away."""
    if not whole:
        printer.abort()
    ended = painter.end()
    if not whole and printer.outputFileName():
        Path(printer.outputFileName()).unlink(missing_ok=True)
    return ended
