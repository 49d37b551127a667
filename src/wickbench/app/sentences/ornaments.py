"""Sentences about ornaments, pictograms and drawings on labels."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "ornament.unknown": N_("There is no ornament called {name}. Choose one from the list."),
    "ornament.no-room": N_("This drawing has no room. Make its box wider and higher."),
    "ornament.too-fine": N_(
        "The finest line of this drawing is {line_mm} wide; below {least_mm} it breaks up in "
        "printing. Make it larger or choose a bolder one."
    ),
    "ornament.cut": N_(
        "This drawing runs over the edge of the sticker and is cut off. Move it inwards or make "
        "it smaller."
    ),
    "facts.none-chosen": N_("No facts are chosen for this frame. Tick those that it shall show."),
    "label.pictogram-small": N_(
        "This caution drawing is {height_mm} high; {source} asks for {least_mm} or more. Make its "
        "box larger."
    ),
}
