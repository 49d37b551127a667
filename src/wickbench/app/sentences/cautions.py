"""Sentences about caution stickers."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "pictogram.unknown": N_("There is no drawing called {name}. Choose one from the list."),
    "caution.kind-unknown": N_(
        "Choose what kind of candle this is: one wick, several wicks, moulded, floating or a melt."
    ),
    "caution.length-out-of-range": N_(
        "A length of {given_mm} does not fit on a caution sticker. Enter more than zero and less "
        "than a metre."
    ),
    "caution.burn-out-of-range": N_(
        "Enter the longest burn in hours, more than 0 and at most 24, not {given_h}."
    ),
    "caution.trim-range": N_(
        "Enter the shorter trim length first; {given_mm} as the longer one does not fit it."
    ),
    "caution.no-rule": N_("No caution statements are known for {region}. Choose US, EU or UK."),
    "caution.no-language-chosen": N_("Choose at least one language for the caution sticker."),
    "caution.no-language": N_(
        "There are no caution statements in the language {language} yet. Choose another one, or "
        "write the statements in your own words."
    ),
    "caution.own-text-empty": N_(
        "Write your own words for “{statement}”, or take the printed ones."
    ),
    "caution.source-read": N_(
        "Statements after {source} ({date}) for {region}. Local rules and a licensed assessor "
        "decide what must be printed."
    ),
    "caution.source-secondary": N_(
        "Statements after {source} ({date}) for {region}, taken from summaries of it, not from the "
        "standard itself. Local rules and a licensed assessor decide what must be printed."
    ),
    "caution.source-memory": N_(
        "Statements after {source} ({date}) for {region}; their wording was written from memory: "
        "compare it with the standard. Local rules and a licensed assessor decide what must be "
        "printed."
    ),
    "caution.source-practice": N_(
        "{source} ({date}), shown for {region}. Local rules and a licensed assessor decide what "
        "must be printed."
    ),
    "caution.translated-here": N_(
        "The wording in these languages is our own translation, not that of the standard: "
        "{languages}. Let somebody who speaks them read it."
    ),
    "caution.unknown-trim": N_(
        "The line about trimming is left out: enter the trim length of the wick."
    ),
    "caution.unknown-hours": N_("The line about the longest burn is left out: enter its hours."),
    "caution.unknown-stop": N_(
        "The line about when to stop is left out: enter how much wax should be left."
    ),
    "caution.unknown-apart": N_(
        "The line about the distance between candles is left out: enter the distance."
    ),
    "caution.unknown-edge": N_(
        "The line about the edge is left out: enter the height from which it is trimmed."
    ),
    "caution.does-not-fit": N_(
        "The caution does not fit this sticker: it needs one of about {needed_mm}. Take a larger "
        "sticker, fewer languages, or a second sticker."
    ),
    "caution.too-small": N_(
        "The caution's text comes out at {size_pt} pt, below the {least_pt} pt that can be read. "
        "It needs a sticker of about {needed_mm}."
    ),
    "caution.care-dropped": N_(
        "Left out because the sticker is too small for it: “{text}”. A sticker of about "
        "{needed_mm} holds everything."
    ),
    "caution.symbol-small": N_(
        "The symbols come out {height_mm} high; {source} asks for at least {least_mm}. Take a "
        "sticker of about {needed_mm}."
    ),
    "caution.larger-than-base": N_(
        "The sticker, {sticker_mm} across, is larger than the {base_mm} of base or lid that it is "
        "meant for. Stick it where it lies flat, or take a smaller one."
    ),
    "caution.missing-glyph": N_(
        "The typeface {family} has no sign for {signs}. Choose another typeface for the caution."
    ),
    "caution.own-words": N_(
        "“{text}” is in your own words in place of a statement of {source}. Check that it says the "
        "same."
    ),
    "caution.does-not-fit-anywhere": N_(
        "The caution fits no sticker of these proportions. Take another shape, fewer languages, or "
        "a second sticker."
    ),
    "caution.too-small-anywhere": N_(
        "The caution's text comes out at {size_pt} pt, below the {least_pt} pt that can be read. "
        "Take another shape, fewer languages, or a second sticker."
    ),
    "caution.symbol-small-anywhere": N_(
        "The symbols come out {height_mm} high; {source} asks for at least {least_mm}. Take "
        "another shape, fewer languages, or a second sticker."
    ),
    "caution.shape-unknown": N_("Choose a sticker that is round, oval, square or rounded."),
    "caution.sticker-size": N_(
        "A caution sticker cannot measure {given_mm}. Enter its size without the safe zone eating "
        "it up."
    ),
    "caution.circle-sides": N_("A round sticker is as high as it is wide, not {given_mm}."),
    "caution.pictures-unknown": N_(
        "Choose whether drawings stand beside the statements, in place of them, or not at all."
    ),
    "caution.nothing-to-print": N_("Choose a region and a language for the caution first."),
    "caution.drawings-only-beside": N_(
        "After {source}, drawings stand beside the statements, not in their place: the statements "
        "are printed as well."
    ),
}
