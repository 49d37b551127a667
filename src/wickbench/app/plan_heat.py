"""Heating and pouring of a plan: minutes on the heat, what the oil cools, vessels in time."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.app.cooling_log import sets_at
from wickbench.app.fields import FieldSpec
from wickbench.app.fields import field as a_field
from wickbench.app.heat_words import pot_words
from wickbench.app.heatings import Heater, Told, heater_with_key, heating_of, waxes_of
from wickbench.app.mixes import main_wax, wax_defaults
from wickbench.app.plan_pots import celsius
from wickbench.app.pot_heat import HeatKnown, PlanHeat, PotHeat, in_time
from wickbench.app.shelf import Shelf
from wickbench.app.texts_marker import N_
from wickbench.domain.cooling import Cooling
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.heat import OIL, Mixed, Portion, mixed, warm_before
from wickbench.domain.heat_learned import heating_time
from wickbench.domain.heat_of_waxes import pot_portions
from wickbench.domain.pouring_time import PourWindow, pour_range_c, pour_window
from wickbench.domain.recipes import Role

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.app.cooling_log import PotLoses
    from wickbench.app.plan_view import PlanView
    from wickbench.app.settings import Settings
    from wickbench.app.texts import Texts
    from wickbench.domain.heat_learned import HeatingTime
    from wickbench.domain.plan import PotPlan

Masses = tuple[dict[object, float], frozenset[object]]

HEAT_FIELDS: tuple[FieldSpec, ...] = (
    a_field("plan", "room_c", N_("Workroom"), "temperature", low=-10, high=50),
    a_field(
        "plan", "vessel_seconds", N_("Seconds from one vessel to the next"), "count",
        low=1, high=3600,
    ),
)  # fmt: skip


def plan_heat(
    view: PlanView, shelf: Shelf, known: HeatKnown, settings: Settings, texts: Texts
) -> PlanHeat:
    """Compute every pot of a plan and put it into words. Quick: a key press waits for it."""
    heater = heater_with_key(shelf, view.plan.heat_source_id)
    told = known.told.get(heater.id, Told(None)) if heater else Told(None)
    room_c = settings.number("room_c") if view.plan.room_c is None else view.plan.room_c
    usual = int(settings.number("vessel_seconds"))
    seconds = view.plan.vessel_seconds or usual
    shown = Bench(shelf, heater, told, room_c, float(seconds))
    pots = tuple(shown.pot(pot, known) for pot in view.result.pots)
    return PlanHeat(
        pots=pots,
        words=tuple(pot_words(one, told, seconds, texts) for one in pots),
        findings=sort_findings([*_about_heater(heater, told), *_about_pots(pots)] if pots else []),
        assumed={
            "room_c": celsius(texts, settings.number("room_c")),
            "vessel_seconds": texts(N_("usually {n}"), n=usual),
        },
    )


@dataclass(frozen=True, slots=True)
class Bench:
    """Everything that the pots of a plan have in common."""

    shelf: Shelf
    heater: Heater | None
    told: Told
    room_c: float
    seconds: float

    def pot(self, pot: PotPlan, known: HeatKnown) -> PotHeat:
        """The figures of one pot."""
        recipe = pot.recipe
        figures: dict[str, object] = {
            "plan": pot,
            "heat_to_c": recipe.heat_to_c,
            "add_c": recipe.add_c,
            "pour_c": recipe.pour_c,
            "room_c": self.room_c,
            "vessels": sum(fill.count for fill in pot.fills),
        }
        row = self._row(pot)
        figures |= self._heating(pot, row)
        figures |= self._mixing(pot)
        figures |= self._flakes(pot)
        key = row.get("id") if row else None
        loses = known.loses.get(key) if isinstance(key, int) else None
        figures |= self._pouring(pot, loses, figures)
        return PotHeat(**figures)  # type: ignore[arg-type]  # each under its own name

    def _row(self, pot: PotPlan) -> dict[str, object] | None:
        name = pot.pot.name if pot.pot else None
        rows = (row for row in self.shelf.equipment.pots if row.get("name") == name)
        return next(rows, None)

    def _heating(self, pot: PotPlan, row: dict[str, object] | None) -> dict[str, object]:
        to_c = pot.recipe.heat_to_c
        if to_c is None:
            return {}
        masses, oils = heated_masses(pot)
        try:
            heat = heating_of(
                masses,
                self.shelf,
                oils=oils,
                pot=row,
                heater=self.heater,
                from_c=self.room_c,
                to_c=to_c,
            )
            return {"energy_kj": heat.energy_kj, "time": self._time(heat.energy_kj)}
        except DomainError as error:
            return {"trouble": error}

    def _time(self, energy_kj: float) -> HeatingTime | None:
        if self.heater is None or self.heater.power_w is None:
            return None
        return heating_time(
            energy_kj, self.heater.power_w, heater=self.heater.kind, learned=self.told.learned
        )

    def _mixing(self, pot: PotPlan) -> dict[str, object]:
        """The oil goes in cold, at the temperature of the room."""
        add_c = pot.recipe.add_c
        oil_g = sum(line.weigh_g for line in pot.weigh if line.role is Role.FRAGRANCE)
        if add_c is None or not oil_g:
            return {}
        try:
            waxes = self._portions(heated_masses(pot), add_c)
            oil = Portion(OIL, oil_g, self.room_c)
            return {"mixed": mixed([*waxes, oil]), "warm_c": self._warm(waxes, add_c, [oil])}
        except (DomainError, ValueError):
            return {}

    def _flakes(self, pot: PotPlan) -> dict[str, object]:
        """Leftovers are set and cold; put into the melted rest they cool it far."""
        hot_c = pot.recipe.heat_to_c
        if not pot.leftovers or hot_c is None:
            return {}
        try:
            rest = self._portions((dry_masses(pot), frozenset()), hot_c)
            cold = self._portions(leftover_masses(pot), self.room_c)
            done = mixed([*rest, *cold])
            return {"flakes": done, "flakes_warm_c": self._warm(rest, hot_c, cold)}
        except (DomainError, ValueError):
            return {}

    def _portions(self, what: Masses, celsius: float) -> tuple[Portion, ...]:
        masses, oils = what
        return pot_portions(masses, waxes_of(self.shelf, masses), celsius, oils)

    @staticmethod
    def _warm(waxes: tuple[Portion, ...], wanted_c: float, cold: Sequence[Portion]) -> float:
        """All waxes are taken as the one there is most of."""
        main = max(waxes, key=lambda one: one.mass_g)
        whole = Portion(main.substance, sum(one.mass_g for one in waxes), wanted_c)
        return warm_before(wanted_c, whole, cold)

    def _pouring(
        self, pot: PotPlan, loses: PotLoses | None, figures: Mapping[str, object]
    ) -> dict[str, object]:
        pour_c = pot.recipe.pour_c
        if pour_c is None:
            return {}
        low_c = self._range(pot, pour_c)[0]
        found: dict[str, object] = {"window_c": (low_c, pour_c)}
        done = figures.get("mixed")
        start_c = done.celsius if isinstance(done, Mixed) else pot.recipe.heat_to_c
        sets_c = sets_at(self.shelf, heated_masses(pot)[0])
        if loses is None or sets_c is None or start_c is None or not pot.total_g:
            return found
        try:
            curves = [
                self._curve(rate, max(start_c, pour_c), sets_c)
                for rate in loses.rate_per_min(pot.total_g)
            ]
            waits = sorted(curve.minute_of(pour_c) for curve in curves)
            slow, fast = (self._in_time(pot, curve, low_c, pour_c) for curve in curves[::2])
        except DomainError as error:
            return found | {"no_time": error}
        window = PourWindow(fast.opens_min, slow.closes_min, fast.sure, slow.at_best, fast.too_late)
        return found | {"wait_min": tuple(waits), "window": window}

    def _curve(self, rate: float, start_c: float, sets_c: float) -> Cooling:
        return Cooling(
            start_min=0.0, start_c=start_c, room_c=self.room_c, rate_per_min=rate,
            congeals_c=sets_c, last_min=0.0,
        )  # fmt: skip

    def _in_time(self, pot: PotPlan, curve: Cooling, low_c: float, pour_c: float) -> PourWindow:
        vessels = sum(fill.count for fill in pot.fills)
        return pour_window(
            curve, low_c, pour_c, seconds_per_vessel=self.seconds,
            pot_g=pot.total_g, vessel_g=pot.filled_g / vessels if vessels else None,
        )  # fmt: skip

    def _range(self, pot: PotPlan, pour_c: float) -> tuple[float, float]:
        version = self.shelf.versions.get(int(str(pot.recipe_key)))
        wax = main_wax(version, self.shelf) if version is not None else None
        usual_c = wax_defaults(wax).pour_c[0] if wax is not None else None
        return pour_range_c(pour_c, usual_c, sets_at(self.shelf, heated_masses(pot)[0]))


def dry_masses(pot: PotPlan) -> dict[object, float]:
    """Grams of everything new that is heated: all but the oil."""
    masses: dict[object, float] = {}
    for line in pot.weigh:
        if line.role is not Role.FRAGRANCE:
            masses[line.material] = masses.get(line.material, 0.0) + line.weigh_g
    return masses


def leftover_masses(pot: PotPlan) -> Masses:
    """Grams of each material that leftovers bring, and which of them are oil."""
    masses: dict[object, float] = {}
    oils: set[object] = set()
    for line in pot.leftovers:
        for (role, material), share in line.brings.shares.items():
            masses[material] = masses.get(material, 0.0) + share * line.weigh_g
            if role is Role.FRAGRANCE:
                oils.add(material)
    return masses, frozenset(oils)


def heated_masses(pot: PotPlan) -> Masses:
    """Grams of everything that is heated: what is new but for its oil, and leftovers whole."""
    masses, oils = leftover_masses(pot)
    for material, grams in dry_masses(pot).items():
        masses[material] = masses.get(material, 0.0) + grams
    return masses, oils


def _about_heater(heater: Heater | None, told: Told) -> list[Finding]:
    found: list[Finding] = []
    if heater is None:
        found.append(Finding(Rank.NOTE, "plan-heat.no-heater", {}, ("heat_source",)))
    elif heater.power_w is None:
        data = {"name": heater.name}
        found.append(Finding(Rank.NOTE, "plan-heat.no-power", data, ("heat_source", heater.id)))
    elif heater.kind == "hotplate" and not heater.bath_g:
        data = {"name": heater.name}
        found.append(Finding(Rank.NOTE, "plan-heat.no-bath", data, ("heat_source", heater.id)))
    if told.trouble is not None:
        found.append(Finding(Rank.WATCH, told.trouble.key, told.trouble.data, ("heat_source",)))
    return found


def _about_pots(pots: tuple[PotHeat, ...]) -> list[Finding]:
    found: list[Finding] = []
    unread = {
        one.plan.pot.name for one in pots
        if one.window is None and one.no_time is None and one.pour_c is not None and one.plan.pot
    }  # fmt: skip
    if unread:
        found.append(Finding(Rank.NOTE, "plan-heat.not-read", {"names": sorted(unread)}))
    for number, one in enumerate(pots, start=1):
        if one.trouble is not None:
            found.append(Finding(Rank.WATCH, one.trouble.key, one.trouble.data, ("pot", number)))
        window = one.window
        if window is None or one.window_c is None or not one.vessels:
            continue
        data = {
            "number": number, "vessels": one.vessels, "sure": window.sure,
            "likely": window.at_best, "low_c": one.window_c[0],
        }  # fmt: skip
        if window.at_best < one.vessels:
            found.append(Finding(Rank.WATCH, "plan-heat.too-many-vessels", data, ("pot", number)))
        elif not in_time(window, one.vessels):
            found.append(Finding(Rank.WATCH, "plan-heat.hardly-in-time", data, ("pot", number)))
    return found
