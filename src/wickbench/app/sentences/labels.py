"""Sentences about labels: their texts, typefaces, pictures and edges."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "label.measure": N_("{value} cannot be a measure of a label. Type a number above zero."),
    "label.colour": N_("{colour} is no colour. Choose one, or type # and six digits from 0 to F."),
    "label.choice": N_("{value} is not one of the choices. Choose one from the list."),
    "label.unknown-field": N_(
        "{field} is no field that a label can fill in. Choose a field from the list, or take "
        "the braces away."
    ),
    "label.field-empty": N_(
        "{field} has no value yet, so its place stays empty. Fill it in with the candle, the "
        "pour or the business details."
    ),
    "label.text-too-long": N_(
        "“{text}” does not fit even at {size} pt. Shorten it, make its box larger, or allow "
        "smaller type."
    ),
    "label.missing-glyphs": N_(
        "{family} has no letters for: {characters}. Choose another typeface for this text."
    ),
    "label.letters-lent": N_("{family} has no {characters}: {used} lends them."),
    "label.typeface-missing": N_(
        "{asked} is not installed here; {used} stands in its place. Install it, or choose "
        "another typeface."
    ),
    "label.typeface-changed": N_(
        "{family} has changed since this label was made. Look whether the lines still stand "
        "as they should."
    ),
    "label.typeface-restricted": N_(
        "The maker of {family} does not allow it to be put into a PDF. Choose another "
        "typeface before you pass the file on."
    ),
    "label.type-too-small": N_(
        "Type of {size} pt is hard to read; {least} pt is the least for most eyes. Make it larger."
    ),
    "label.type-too-small-reversed": N_(
        "Light type of {size} pt on a dark ground fills in when printed; use at least {least} pt."
    ),
    "label.low-contrast": N_(
        "The colour of this text is so near to what lies behind it that it cannot be read. "
        "Choose a darker or a lighter one."
    ),
    "label.small-letters": N_(
        "This typeface has small letters: at {size} pt an x is only {x_mm} high. Make the "
        "type larger, at least {least_mm}."
    ),
    "label.text-outside-safe": N_(
        "Text comes nearer to the edge than {safe_mm}. Printers feed a millimetre off: move "
        "it inwards."
    ),
    "label.text-outside-sticker": N_(
        "Text runs over the edge of the sticker and would be cut off. Move it inwards or make"
        " it smaller."
    ),
    "label.picture-none": N_(
        "No picture is chosen for this place. Choose one, or take the place away."
    ),
    "label.picture-missing": N_(
        "The picture of this label is not in the workshop file. Choose it again."
    ),
    "label.picture-coarse": N_(
        "The picture has only {dots} dots per inch at this size; below {least} it looks "
        "coarse. Use a larger picture or print it smaller."
    ),
    "label.line-cut": N_(
        "A line runs over the edge of the sticker and is cut off there. Move it inwards or make it "
        "shorter."
    ),
    "label.nothing-on-sticker": N_(
        "This lies beside the sticker: nothing of it is printed. Move it onto the sticker or "
        "remove it."
    ),
    "label.picture-cut": N_(
        "The picture runs over the edge of the sticker and is cut off. Move it inwards or "
        "make it smaller."
    ),
    "label.clip": N_("What was copied is nothing that a label can hold."),
    "label.nothing-chosen": N_("Choose something on the label first."),
    "label.larger-than-sticker": N_(
        "The label is {width_mm} × {height_mm}, the sticker only {sticker_width_mm} × "
        "{sticker_height_mm}. Choose another sheet, or make the label smaller."
    ),
    "label.smaller-than-sticker": N_(
        "The label is {width_mm} × {height_mm} on a sticker of {sticker_width_mm} × "
        "{sticker_height_mm}; it stands in the middle."
    ),
}
