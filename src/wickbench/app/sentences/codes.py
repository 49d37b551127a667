"""Sentences about codes to be scanned."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "code.empty": N_("The code says nothing yet. Type what it shall say, or choose a field."),
    "code.not-digits": N_("“{text}” is not all digits. This kind of code takes digits only."),
    "code.digits": N_(
        "This kind of code has {wanted} digits, or {without} without the check digit; here are "
        "{have}. Look at the number again."
    ),
    "code.check-digit": N_(
        "The last digit should be {right}, not {last}: one of the digits is wrong. Compare the "
        "number with where it was given."
    ),
    "code.letters": N_(
        "Code 128 has no {letters}. Use letters without accents, digits and plain signs, or a QR "
        "code."
    ),
    "code.too-long": N_("{have} letters are too many for this code; it takes {most}."),
    "code.vessel": N_("The diameter of the vessel is not known."),
    "code.turned": N_(
        "The code stands upright like a ladder: lying down it would bend too far round the vessel."
    ),
    "code.bends": N_(
        "The code is {wide_mm} wide: more than a sixth of the way round a vessel of {vessel_mm}. "
        "Turn it by 90° or make it smaller, or scanners will not read its ends."
    ),
    "code.bends-square": N_(
        "The code is {wide_mm} wide: more than a sixth of the way round a vessel of {vessel_mm}. "
        "Make it smaller, or scanners will not read its edges."
    ),
    "code.bars-thin": N_(
        "The narrowest bar is {module_mm}; scanners want {least_mm} or more. Make the code wider."
    ),
    "code.modules-small": N_(
        "Each small square is {module_mm}; telephones read {least_mm} or more. Make the code "
        "larger or let it say less."
    ),
    "code.bars-low": N_(
        "The bars are {high_mm} high; at this width a till wants {least_mm}. Make the code higher."
    ),
    "code.colours": N_(
        "Scanners shine red: to them these bars are too much like what lies behind. Use black or "
        "dark blue or green on white."
    ),
    "code.outside": N_(
        "The code or the clear space round it runs over the edge of the sticker. Move it inwards."
    ),
    "code.covered": N_(
        "Something else stands in the clear space round the code. Move one of the two away."
    ),
}
