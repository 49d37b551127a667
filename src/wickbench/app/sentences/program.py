"""Sentences about the program itself: its own files and how it was started."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "program.resource-missing": N_(
        "The program's own file {name} is missing. Install the program again."
    ),
    "program.resource-damaged": N_(
        "The program's own file {name} cannot be read. Install the program again."
    ),
    "program.no-demo": N_(
        "The demo workshop does not come with this installation. "
        "Start the demo from the project's folder."
    ),
}
