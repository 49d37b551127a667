"""Sentences about measuring a sticker sheet, its tolerances, and sheets entered twice."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "ruler.backwards": N_(
        "The last sticker lies before the first. Read every distance from the same edge of the "
        "paper, and count the stickers again."
    ),
    "ruler.apart-across": N_(
        "The readings across are {apart_mm} apart: one of them is a slip. Lay the ruler’s zero on "
        "the paper’s left edge and read them again."
    ),
    "ruler.read-first-near-across": N_(
        "The last column’s place is known to {doubt_mm}. "
        "Reading the left edge of the first sticker would make it surer."
    ),
    "ruler.read-last-near-across": N_(
        "The last column’s place is known to {doubt_mm}. "
        "Reading the left edge of the last column would make it surer."
    ),
    "ruler.read-last-far-across": N_(
        "The last column’s place is known to {doubt_mm}. "
        "Reading the right edge of the last column would make it surer."
    ),
    "ruler.read-size-across": N_(
        "The last column’s place is known to {doubt_mm}. "
        "Measuring how wide one sticker is would make it surer."
    ),
    "ruler.apart-down": N_(
        "The readings down are {apart_mm} apart: one of them is a slip. Lay the ruler’s zero on "
        "the paper’s top edge and read them again."
    ),
    "ruler.read-first-near-down": N_(
        "The last row’s place is known to {doubt_mm}. "
        "Reading the top edge of the first sticker would make it surer."
    ),
    "ruler.read-last-near-down": N_(
        "The last row’s place is known to {doubt_mm}. "
        "Reading the top edge of the last row would make it surer."
    ),
    "ruler.read-last-far-down": N_(
        "The last row’s place is known to {doubt_mm}. "
        "Reading the bottom edge of the last row would make it surer."
    ),
    "ruler.read-size-down": N_(
        "The last row’s place is known to {doubt_mm}. "
        "Measuring how high one sticker is would make it surer."
    ),
    "sheet.off-centre-across": N_(
        "The stickers leave {near_mm} at the left and {far_mm} at the right. Most sheets are cut "
        "evenly; from one to the next it would be {pitch_mm} then. Measure the last column again."
    ),
    "sheet.off-centre-down": N_(
        "The stickers leave {near_mm} at the top and {far_mm} at the bottom. Many sheets are cut "
        "evenly; from one to the next it would be {pitch_mm} then. Measure the last row again."
    ),
    "sheet.off-centre-across-single": N_(
        "The sticker leaves {near_mm} at the left and {far_mm} at the right. Most sheets are cut "
        "evenly: measure the left margin again."
    ),
    "sheet.off-centre-down-single": N_(
        "The sticker leaves {near_mm} at the top and {far_mm} at the bottom. Many sheets are cut "
        "evenly: measure the top margin again."
    ),
    "sheet.paper-short-across": N_(
        "The last column ends {distance_mm} from the right edge, but paper of this size may be "
        "{tolerance_mm} narrower (ISO 216). Keep the text away from that side."
    ),
    "sheet.paper-short-down": N_(
        "The last row ends {distance_mm} from the bottom edge, but paper of this size may be "
        "{tolerance_mm} shorter (ISO 216). Keep the text away from that side."
    ),
    "sheet.gap-below-feed-across": N_(
        "Stickers stand {gap_mm} apart across, and printers feed within {feed_mm}: a background in "
        "colour can show on the next column. Leave a white edge, or print one design to a sheet."
    ),
    "sheet.gap-below-feed-down": N_(
        "Stickers stand {gap_mm} apart down, and printers feed within {feed_mm}: a background in "
        "colour can show on the next row. Leave a white edge, or print one design to a sheet."
    ),
    "sheet.last-unsure-across": N_(
        "The last column’s place is known to {doubt_mm}, and printers feed within {feed_mm}: "
        "together {off_mm}, more than the {inside_mm} that text stays inside. Read the last "
        "column’s edge again."
    ),
    "sheet.last-unsure-down": N_(
        "The last row’s place is known to {doubt_mm}, and printers feed within {feed_mm}: together "
        "{off_mm}, more than the {inside_mm} that text stays inside. Read the last row’s edge "
        "again."
    ),
    "sheet.same-as": N_(
        "These are the measures of “{name}”, which is there already. Use that one: its begun "
        "sheets and its stock go with it."
    ),
}

SENTENCES |= {
    "scan.no-page-size": N_("Choose the page first, or type its width and height."),
    "scan.unreadable": N_("“{name}” cannot be read. Look whether the file is still there."),
    "scan.coarse": N_(
        "The picture has too few dots: scan the sheet again at {least} dots per inch or more."
    ),
    "scan.no-page": N_(
        "The page cannot be told from what is round it. Cut the picture to the page, or lay the "
        "sheet on something dark and scan all of it."
    ),
    "scan.no-stickers": N_(
        "No even grid of stickers is seen. Scan the empty sheet straight, with the lid open or a "
        "dark sheet behind it so that the cuts show; or measure with a ruler."
    ),
    "scan.unsure": N_(
        "Only {seen_percent} of the stickers’ edges are seen: too little to go by. Scan again with "
        "more contrast, or measure with a ruler."
    ),
}
