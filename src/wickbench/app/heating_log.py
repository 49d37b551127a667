"""The log of one heat source in words: each timed heating, and what they tell together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.dates import short_date
from wickbench.app.heat_words import energy_words, in_minutes
from wickbench.app.heatings import HeatingRow, Told, load_heatings, told_by
from wickbench.app.texts_marker import N_
from wickbench.domain.heat_learned import FEWEST_POURS
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace

_SURE: Final = {
    "hardly": N_("The next one may take half as long again: time some more."),
    "roughly": N_("The next one is within half of that."),
    "well": N_("The next one is within a fifth of that."),
}
HOW: Final = (
    N_(
        "The part that arrived = heat / (power × time). The heat is computed as for the plan: wax, "
        "water of the bath and metal of the pot, from one temperature to the other."
    ),
    N_(
        "Taken is the middle one of those that count; with four or more, one that lies far off is "
        "left out. The range is Student’s interval for one more value, on the logarithms, with the "
        "half minute to which a clock is read as the least spread."
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggedShown:
    """One timed heating in words; ``counts`` says whether it is learned from."""

    id: int
    day: str
    pot: str
    minutes: str
    heat: str
    share: str
    counts: str
    left_out: bool


@dataclass(frozen=True, slots=True)
class LogView:
    """The log of a heat source.

    Attributes:
        rows: the latest first; one that is still on the heat is not among them.
        said: what was learned, or what is still needed.
        how: how it is computed; empty while nothing was learned.
    """

    rows: tuple[LoggedShown, ...]
    said: str
    how: tuple[str, ...]


def view_log(workspace: Workspace, heat_source: int) -> LogView:
    """Read the log of a heat source and put it into words."""
    rows = [row for row in load_heatings(workspace, heat_source) if row.seconds is not None]
    with workspace.read() as connection:
        pots = {
            int(str(pot["id"])): str(pot["lot_code"] or "")
            for pot in records.fetch_all(connection, "pour_pot")
        }
    told, texts = told_by(rows), workspace.texts
    shown = tuple(_shown(row, told, pots, texts) for row in rows)
    how = tuple(texts(one) for one in HOW) if told.learned else ()
    return LogView(shown, _said(rows, told, texts), how)


def _shown(row: HeatingRow, told: Told, pots: Mapping[int, str], texts: Texts) -> LoggedShown:
    logged = row.logged
    share = "" if logged is None else f"{texts.number(100 * logged.efficiency, 0)} %"
    return LoggedShown(
        id=row.id,
        day=short_date(row.logged_on) if row.logged_on else "",
        pot=pots.get(row.pour_pot_id or 0, ""),
        minutes=in_minutes(texts, row.minutes or 0.0),
        heat="" if row.heat_j is None else energy_words(texts, row.heat_j / 1000),
        share=share,
        counts=_counts(row, told, texts),
        left_out=row.left_out,
    )


def _counts(row: HeatingRow, told: Told, texts: Texts) -> str:
    if row.left_out:
        return texts(N_("left out"))
    if row.logged is None:
        return texts(N_("no watts"))
    if row.id in told.far_off:
        return texts(N_("too far off"))
    return texts(N_("counts"))


def _said(rows: list[HeatingRow], told: Told, texts: Texts) -> str:
    if told.trouble is not None:
        return texts.say(told.trouble)
    if told.learned is None:
        have = sum(not row.left_out and row.logged is not None for row in rows)
        missing = FEWEST_POURS - have
        return texts.plural(
            "Time {n} more heating at the bench, and the plan goes by your own.",
            "Time {n} heatings at the bench, and the plan goes by your own.",
            missing,
        )
    learned = told.learned
    low, middle, high = (
        texts.number(100 * one, 0) for one in (learned.low, learned.efficiency, learned.high)
    )
    said = texts.plural(
        "By {n} heating about {middle} % of the power arrives in the pot ({low}–{high} %).",
        "By {n} heatings about {middle} % of the power arrives in the pot ({low}–{high} %).",
        learned.pours, middle=middle, low=low, high=high,
    )  # fmt: skip
    more = texts(_SURE[learned.sure])
    if not learned.too_good:
        return f"{said} {more}"
    odd = texts(N_("More cannot arrive than it draws: check the watts, the times and the bath."))
    return f"{said} {more} {odd}"
