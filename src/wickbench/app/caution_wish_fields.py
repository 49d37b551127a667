"""What a caution sticker may say beyond its statements, as fields: burn, wax left, facts below."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from wickbench.app.caution_sticker import LONGEST_BURN_H, STOP_MM
from wickbench.app.fields import field
from wickbench.app.label_values import FIELD_WORDS
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.fields import FieldSpec
    from wickbench.app.label_store import CautionWish
    from wickbench.app.texts import Texts

FACTS: Final = ("lot", "net_weight", "business")
"""What may stand below the statements, in its order."""

_MINUTES: Final = 60.0
_TABLE: Final = "caution"
_BELOW: Final = N_("Below the statements")

CAUTION_FIELDS: Final[tuple[FieldSpec, ...]] = (
    field(_TABLE, "longest_burn_min", N_("Longest burn at a time"), "duration", low=30, high=1440),
    field(_TABLE, "stop_mm", N_("Stop when so much wax is left"), "length", low=3, high=50),
    *(field(_TABLE, f"fact_{name}", FIELD_WORDS[name], "yes_no", group=_BELOW) for name in FACTS),
)


def wish_values(wish: CautionWish) -> dict[str, object]:
    """A sticker's wishes by field; empty where the usual holds."""
    burn_h = wish.longest_burn_h
    return {
        "longest_burn_min": burn_h * _MINUTES if burn_h is not None else None,
        "stop_mm": wish.stop_mm,
        **{f"fact_{name}": int(name in wish.facts) for name in FACTS},
    }


def usual_values(texts: Texts) -> dict[str, str]:
    """What is taken for fields that are left empty."""
    hours = texts.plural(N_("{n} hour"), N_("{n} hours"), int(LONGEST_BURN_H))
    return {
        "longest_burn_min": texts(N_("{value}, usual"), value=hours),
        "stop_mm": texts(N_("{length_mm}, usual"), length_mm=STOP_MM),
    }


def with_value(wish: CautionWish, name: str, value: object) -> CautionWish:
    """The wish with one field filled in or emptied.

    Args:
        wish: as it was.
        name: of the field.
        value: as read from it; ``None`` goes back to the usual.
    """
    number = float(value) if isinstance(value, int | float) else None
    if name == "longest_burn_min":
        return replace(wish, longest_burn_h=number / _MINUTES if number is not None else None)
    if name == "stop_mm":
        return replace(wish, stop_mm=number)
    fact = name.removeprefix("fact_")
    kept = {*wish.facts, fact} if value else set(wish.facts) - {fact}
    return replace(wish, facts=tuple(one for one in FACTS if one in kept))


def facts_line(wish: CautionWish, values: Mapping[str, str]) -> tuple[str, tuple[str, ...]]:
    """The line below the statements, and which of its facts are not known yet.

    Args:
        wish: of the sticker.
        values: value of each field by its name.
    """
    known = [values.get(name, "").strip() for name in wish.facts]
    missing = tuple(name for name, said in zip(wish.facts, known, strict=True) if not said)
    return " · ".join(said.replace(" ", "\u00a0") for said in known if said), missing
