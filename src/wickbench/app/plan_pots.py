"""The pots of a plan in words: what to weigh, on which scale, how hot, and what it fills."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.app.recipe_words import load_text, percent
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.lot_codes import lot_codes
from wickbench.domain.plan import PotPlan
from wickbench.domain.recipes import Load, Role

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Collection

    from wickbench.app.settings import Settings
    from wickbench.app.texts import Texts
    from wickbench.domain.leftover_lines import LeftoverLine
    from wickbench.domain.plan import PourPlan, WeighLine
    from wickbench.domain.recipes import Recipe

_POUND_G = 453.59237
_TOGETHER = {
    Role.WAX: N_("melt with the wax before"),
    Role.FRAGRANCE: N_("add with the oil before"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighShown:
    """One thing to weigh.

    Attributes:
        key: of the material, or of the leftover.
        name: what the maker calls it.
        role: wax, dye, additive or fragrance; "leftover" for one of those.
        amount: with the digits of its scale.
        other: in the second unit; empty for none.
        scale: where to weigh it, with what the scale reads to.
        when: temperature and what to do, in words.
        weigh_g: the figure behind ``amount``.
    """

    key: int
    name: str
    role: str
    amount: str
    other: str
    scale: str
    when: str
    weigh_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PotCard:
    """One filling of one pot.

    ``fill_ratio`` is the mix by the pot's safe fill, for the drawing.
    """

    index: int
    title: str
    recipe: str
    lot_code: str
    pot: str
    total: str
    fill_ratio: float | None
    weigh: tuple[WeighShown, ...]
    load: str
    fills: tuple[str, ...]
    leftover: str
    pour_at: str
    plan: PotPlan


class CardMemo:
    """Cards as they were the last time; a pot that is the same object keeps its card."""

    def __init__(self) -> None:
        self._known: dict[int, tuple[PotPlan, Texts, str, PotCard]] = {}

    def card(self, index: int, pot: PotPlan, code: str, texts: Texts) -> PotCard:
        """The card of the pot at this place."""
        known = self._known.get(index)
        if known is None or (known[0] is not pot or known[1] is not texts or known[2] != code):
            known = self._known[index] = (pot, texts, code, _card(index, pot, code, texts))
        return known[3]


def pot_cards(  # noqa: PLR0917 - what a card is made of, and what is known
    result: PourPlan,
    settings: Settings,
    texts: Texts,
    day: dt.date,
    taken: Collection[str],
    memo: CardMemo | None = None,
) -> tuple[tuple[PotCard, ...], list[Finding]]:
    """A card for each pot, with its lot code; a pattern that cannot serve is told."""
    known = memo or CardMemo()
    places = [(pot.recipe_index, pot.number) for pot in result.pots]
    findings: list[Finding] = []
    try:
        codes = lot_codes(settings.text("lot_pattern"), day, places, taken)
    except DomainError as error:
        findings.append(Finding(Rank.WATCH, error.key, error.data, ("lot",)))
        codes = ("",) * len(places)
    cards = tuple(
        known.card(index, pot, code, texts)
        for index, (pot, code) in enumerate(zip(result.pots, codes, strict=True))
    )
    return cards, findings


def _card(index: int, pot: PotPlan, code: str, texts: Texts) -> PotCard:
    return PotCard(
        index=index,
        title=pot_title(pot, texts),
        recipe=pot.recipe.name,
        lot_code=code,
        pot=pot.pot.name if pot.pot else "",
        total=_total(pot, texts),
        fill_ratio=pot.fill_ratio,
        weigh=(
            *leftovers_shown(pot, texts),
            *(_weigh(line, pot.recipe, texts, first) for line, first in _with_first(pot)),
        ),
        load=_load(pot, texts),
        fills=tuple(
            texts(
                N_("{count} × {vessel}, {each} each"),
                count=fill.count,
                vessel=fill.vessel_name,
                each=texts.quantity(fill.each_g, "mass", step=0.1, both=False),
            )
            for fill in pot.fills
        ),
        leftover=texts.quantity(pot.leftover_g, "mass", both=False),
        pour_at="" if pot.recipe.pour_c is None else celsius(texts, pot.recipe.pour_c),
        plan=pot,
    )


def pot_title(pot: PotPlan, texts: Texts) -> str:
    """The pot in words: "Bramble · pot 1 of 2", or "Bramble · one pot"."""
    if pot.of == 1:
        return texts(N_("{recipe} · one pot"), recipe=pot.recipe.name)
    return texts(
        N_("{recipe} · pot {number} of {of}"),
        recipe=pot.recipe.name,
        number=pot.number,
        of=pot.of,
    )


def _total(pot: PotPlan, texts: Texts) -> str:
    """What is in it: "3153 g in Tall pitcher, 79 % of its safe fill"."""
    total = texts.quantity(pot.total_g, "mass", step=1, both=False)
    if pot.pot is None or pot.fill_ratio is None:
        return total
    return texts(
        N_("{total} in {pot}, {share} of its safe fill"),
        total=total,
        pot=pot.pot.name,
        share=f"{texts.number(100 * pot.fill_ratio, 0)} %",
    )


def _load(pot: PotPlan, texts: Texts) -> str:
    if not pot.load.percent:
        return texts(N_("no fragrance"))
    of_wax = load_text(texts, pot.load)
    of_total = load_text(texts, Load(pot.load.of_total, "total"))
    if pot.reach is None:
        return f"{of_wax} = {of_total}"
    return texts(
        N_("{of_wax} = {of_total}, give or take {reach} of wax by the scales"),
        of_wax=of_wax,
        of_total=of_total,
        reach=percent(texts, max(pot.reach.above_percent, pot.reach.below_percent)),
    )


def celsius(texts: Texts, value_c: float) -> str:
    """A temperature in the person's units, "82 °C · 180 °F"."""
    return texts.quantity(value_c, "temperature")


def leftovers_shown(pot: PotPlan, texts: Texts) -> tuple[WeighShown, ...]:
    """What is weighed of leftovers: it is melted before anything new goes in."""
    return tuple(
        WeighShown(
            key=int(str(line.brings.key)),
            name=texts(N_("Leftover: {name}"), name=line.name),
            role="leftover",
            amount=texts.units.one(
                line.weigh_g, "mass", texts.units.first("mass"), step=line.step_g
            ),
            other=second_weight(texts, line.weigh_g),
            scale=_scale(line, texts),
            when=texts(N_("melt first, gently")),
            weigh_g=line.weigh_g,
        )
        for line in pot.leftovers
    )


def _with_first(pot: PotPlan) -> list[tuple[WeighLine, bool]]:
    """Each line, and whether it is the first of its role."""
    seen: set[Role] = set()
    lines = []
    for line in pot.weigh:
        lines.append((line, line.role not in seen))
        seen.add(line.role)
    return lines


def _weigh(line: WeighLine, recipe: Recipe, texts: Texts, first: bool) -> WeighShown:  # noqa: FBT001 - a fact of the line
    first_unit = texts.units.first("mass")
    amount = texts.units.one(line.weigh_g, "mass", first_unit, step=line.step_g)
    return WeighShown(
        key=line.material,
        name=line.name,
        role=line.role.value,
        amount=amount,
        other=second_weight(texts, line.weigh_g),
        scale=_scale(line, texts),
        when=when_text(line.role, recipe, texts, first=first),
        weigh_g=line.weigh_g,
    )


def second_weight(texts: Texts, mass_g: float) -> str:
    """A weight in the second unit; below a pound in ounces with hundredths. Empty for none."""
    unit = texts.units.second("mass")
    if not unit:
        return ""
    return texts.units.one(mass_g, "mass", "oz" if mass_g < _POUND_G and unit == "lb oz" else unit)


def _scale(line: WeighLine | LeftoverLine, texts: Texts) -> str:
    if line.scale is None:
        return ""
    reads_to = texts.units.one(line.scale.reads_to_g, "mass", "g", step=line.scale.reads_to_g)
    if line.portions > 1:
        return texts(
            N_("{scale}, reads to {step}, in {n} portions"),
            scale=line.scale.name,
            step=reads_to,
            n=line.portions,
        )
    return texts(N_("{scale}, reads to {step}"), scale=line.scale.name, step=reads_to)


def when_text(role: Role, recipe: Recipe, texts: Texts, *, first: bool) -> str:
    """What to do with it and how hot; said once for each role."""
    if not first and role in {Role.WAX, Role.FRAGRANCE}:
        return texts(_TOGETHER[role])
    if role is Role.WAX and recipe.heat_to_c is not None:
        return texts(N_("heat to {hot}"), hot=celsius(texts, recipe.heat_to_c))
    if role is Role.FRAGRANCE and recipe.add_c is not None:
        at = celsius(texts, recipe.add_c)
        if recipe.stir_min:
            return texts(N_("add at {hot}, stir {n} min"), hot=at, n=f"{recipe.stir_min:g}")
        return texts(N_("add at {hot}, stir well"), hot=at)
    if role in {Role.DYE, Role.ADDITIVE}:
        return texts(N_("stir in before the oil"))
    return ""
