"""Sentences about what is on the shelf: purchases, counts, corrections."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "stock.nothing-bought": N_("Say how much you bought; it must be more than nothing."),
    "stock.paid-below-zero": N_("What you paid is zero or more. Leave out the minus sign."),
    "stock.day-to-come": N_(
        "{bought_on} is still to come. Enter a purchase when the goods are on the shelf."
    ),
    "stock.less-than-nothing": N_("There is nothing or more on a shelf. Leave out the minus sign."),
    "stock.whole-pieces": N_("Pieces are counted whole. Write a number without a decimal part."),
    "stock.taken-back-already": N_("This purchase was corrected already."),
    "stock.count-missing": N_("Say how much is there now; write 0 when the shelf is empty."),
    "stock.below-nothing": N_(
        "By the book there is less than nothing. A purchase is missing, or more was used than "
        "written down: count what is there."
    ),
    "stock.counted-since": N_(
        "You counted on {counted_on}, after this purchase: what is on hand stays as you counted it."
    ),
}
