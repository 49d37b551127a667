"""A print that was made before, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from wickbench.app.print_history import PrintedBefore, PrintedLine
    from wickbench.app.texts import Texts


def print_text(texts: Texts, one: PrintedBefore) -> str:
    """Where it went: "31 stickers on 2 sheets · Kraft · Workroom laser · print 4 once more"."""
    stickers = texts.plural(N_("{n} sticker"), N_("{n} stickers"), one.count)
    sheets = texts.plural(N_("on {n} sheet"), N_("on {n} sheets"), one.sheets)
    parts = [f"{stickers} {sheets}", one.sheet_name, one.printer]
    if one.again_of is not None:
        parts.append(texts(N_("print {number} once more"), number=str(one.again_of)))
    return " · ".join(part for part in parts if part)


def lines_text(texts: Texts, one: PrintedBefore) -> str:
    """What stood on each label, line by line, as it was printed."""
    return "\n\n".join(_line(texts, line) for line in one.lines)


def _line(texts: Texts, line: PrintedLine) -> str:
    label = texts(N_("{count} × {label}"), count=str(line.count), label=line.label)
    head = " · ".join(part for part in (label, line.candle, line.lot) if part)
    said = " · ".join(" ".join(text.split()) for text in line.texts)
    return f"{head}\n{said}" if said else head
