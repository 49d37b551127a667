"""Sheets sent to a printer by the system's own dialog, drawn as on the PDF."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QMarginsF, QSizeF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter

from wickbench.gui.painting import ScreenSurface

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from wickbench.documents.surface import Surface

_MM_PER_INCH = 25.4


def made_printer(width_mm: float, height_mm: float, title: str) -> QPrinter:
    """A printer whose page is exactly this size, without margins of its own."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setDocName(title)
    printer.setFullPage(True)
    size = QSizeF(width_mm, height_mm)
    page = QPageSize(size, QPageSize.Unit.Millimeter, "", QPageSize.SizeMatchPolicy.FuzzyMatch)
    printer.setPageSize(page)
    printer.setPageMargins(QMarginsF(0, 0, 0, 0), QPageLayout.Unit.Millimeter)
    return printer


def asked_printer(printer: QPrinter, parent: QWidget) -> bool:
    """Show the system's dialog; says whether to print."""
    return QPrintDialog(printer, parent).exec() == QPrintDialog.DialogCode.Accepted


def print_drawing(printer: QPrinter, draw: Callable[[Surface], None]) -> bool:
    """Draw on a printer, page by page; says whether the printer took it."""
    painter = QPainter()
    if not painter.begin(printer):
        return False

    def next_page(_width_mm: float, _height_mm: float) -> None:
        printer.newPage()

    surface = ScreenSurface(
        painter,
        printer.resolution() / _MM_PER_INCH,
        page=None,
        next_page=next_page,
    )
    try:
        draw(surface)
    finally:
        surface.finish()
        ended = painter.end()
    return ended
