"""Sentences about vessels on the shelf."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "vessel.line-over-brim": N_(
        "The fill line holds {line_ml} but the brim only {brim_ml}. Look at the weighings again."
    ),
    "vessel.shape-disagrees": N_(
        "The diameters make {drawn_ml}, the water says {measured_ml}: {off_percent} apart. "
        "The water counts; the drawing was scaled to it. Measure the inside once more."
    ),
}
