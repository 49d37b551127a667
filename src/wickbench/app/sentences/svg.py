"""Sentences about SVG drawings that are turned into paths."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "svg.damaged": N_(
        "This SVG file cannot be read to its end. Open it in a drawing program, save it as plain "
        "SVG, and choose it again."
    ),
    "svg.entities": N_(
        "This SVG file declares entities of its own, which are not opened for safety. Save it as "
        "plain SVG in a drawing program and choose it again."
    ),
    "svg.too-large": N_(
        "This SVG file holds too much to be drawn on a label. Make the drawing simpler, or save it "
        "as PNG."
    ),
    "svg.nothing-drawn": N_(
        "Nothing in this SVG file can be drawn as lines and areas. Turn its letters into paths in "
        "a drawing program, or save it as PNG."
    ),
    "svg.left-out-text": N_(
        "Letters in this drawing are left out. Turn them into paths in a drawing program."
    ),
    "svg.left-out-image": N_(
        "A photograph within this drawing is left out. Put it onto the label as a picture of its "
        "own, or save the whole as PNG."
    ),
    "svg.left-out-gradient": N_(
        "Colours that run into each other in this drawing are printed as one colour, their middle."
    ),
    "svg.left-out-pattern": N_(
        "An area of this drawing is filled with a pattern, which is left out. Save it as PNG to "
        "keep it."
    ),
    "svg.left-out-filter": N_(
        "A filter such as a shadow or blur in this drawing is left out. Save it as PNG to keep it."
    ),
    "svg.left-out-mask": N_(
        "A mask in this drawing is left out, so more of it is seen. Save it as PNG to keep it."
    ),
    "svg.left-out-clip": N_(
        "A cut-out in this drawing is not followed exactly. Compare it with the original, or save "
        "it as PNG."
    ),
    "svg.left-out-marker": N_(
        "Arrow heads or other marks on lines of this drawing are left out. Turn them into paths in "
        "a drawing program."
    ),
    "svg.left-out-animation": N_("Motion in this drawing is left out: it is printed as it begins."),
    "svg.left-out-script": N_("A script in this drawing is left out and never run."),
    "svg.left-out-style": N_(
        "Some rules of style in this drawing are not followed. Compare it with the original; plain "
        "SVG keeps everything."
    ),
    "svg.left-out-link": N_(
        "This drawing refers to something that is not in it; that is left out. Save it with "
        "everything inside."
    ),
    "svg.left-out-transparent": N_(
        "Colours that are seen through in this drawing are printed as tints, as on white paper."
    ),
    "svg.left-out-colour": N_(
        "A colour of this drawing cannot be read and is printed black. Compare it with the "
        "original."
    ),
    "svg.left-out-path": N_(
        "A line of this drawing is damaged and ends early. Compare it with the original."
    ),
    "svg.left-out-blend": N_(
        "Colours of this drawing that mix with what lies below are printed over it. Save it as PNG "
        "to keep them."
    ),
    "svg.left-out-stroke": N_(
        "This drawing holds very much, so ends, corners and dashes of its lines are drawn plainly. "
        "Turn its lines into areas in a drawing program to keep them."
    ),
    "svg.left-out-other": N_(
        "Something in this drawing is no line or area and is left out. Save it as plain SVG, or as "
        "PNG."
    ),
}
