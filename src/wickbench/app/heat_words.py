"""Heating and pouring in words: minutes, what the oil cools, how many vessels in time, and how."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from wickbench.app.plan_pots import celsius, pot_title
from wickbench.app.pot_heat import in_time
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.app.heatings import Told
    from wickbench.app.pot_heat import PotHeat
    from wickbench.app.texts import Texts
    from wickbench.domain.heat_learned import HeatingTime, Learned

_HOUR: Final = 60
_LONG: Final = 120
_FEW: Final = 3.0

HOW_HEATED: Final = (
    N_(
        "Heat for each wax: E = m × [c(solid) × (Tm − T0) + L + c(liquid) × (T − Tm)], in kJ with "
        "kg and °C; Tm is the middle of its melting range. Specific heats and the heat of melting "
        "L are estimates of the class of wax, from handbook values of pure substances."
    ),
    N_(
        "The water of the bath takes 4.186 kJ for each kg and °C up to about 95 °C, the metal of "
        "the pot 0.50 (steel), 0.90 (aluminium) or 0.83 (glass): handbook values. Oil goes in "
        "later and is not heated."
    ),
    N_(
        "Time = heat / (power × the part of it that arrives). At best all of it arrives. Usual is "
        "0.4 to 0.6 for a hot plate under a water bath and 0.8 to 0.9 for a melter: common "
        "practice, no source."
    ),
    N_(
        "After two timed pours the part that arrives is the middle one of your own, and the range "
        "is Student’s interval for one more pour, on the logarithms: 95 of 100 lie in it."
    ),
)
HOW_MIXED: Final = N_(
    "Oil stirred in: wax and oil together hold as much heat after as before. Oil takes 2.0 kJ for "
    "each kg and °C, an estimate, and is as warm as the room."
)
HOW_COOLED: Final = (
    N_(
        "Cooling: T = room + (T0 − room) × e^(−k × t), Newton’s law of cooling. It holds while the "
        "wax is liquid, above the point where it begins to set; below that the wax stays at one "
        "temperature for long and no time is told."
    ),
    N_(
        "k of a pot comes from the temperatures that you read at the bench; with more in the pot "
        "it is smaller by as much as there is more."
    ),
    N_(
        "Vessels in time: the higher number if the pot cooled no faster while it empties, the "
        "lower one if it lost as much heat nearly empty as full (k grows as the mass goes down). "
        "The truth lies between."
    ),
)


def in_minutes(texts: Texts, minutes: float) -> str:
    """A time in whole minutes, from two hours on with hours: "24 min", "2 h 10 min"."""
    whole = max(1, math.floor(minutes + 0.5))
    if whole < _LONG:
        return texts(N_("{n} min"), n=whole)
    hours, rest = divmod(whole, _HOUR)
    if not rest:
        return texts(N_("{hours} h"), hours=hours)
    return texts(N_("{hours} h {n} min"), hours=hours, n=rest)


def minutes_span(texts: Texts, low: float, high: float) -> str:
    """From a time to another: "21–31 min"; one of them when they read alike."""
    first, last = in_minutes(texts, low), in_minutes(texts, high)
    if first == last:
        return last
    if high < _LONG - 1:
        return texts(N_("{low}–{high} min"), low=max(1, round(low)), high=max(1, round(high)))
    return texts(N_("{low} to {high}"), low=first, high=last)


def heating_words(texts: Texts, time: HeatingTime, learned: Learned | None) -> str:
    """How long heating takes, as an estimate."""
    span = minutes_span(texts, time.low_min, time.high_min)
    if time.likely_min is None or learned is None:
        return texts(
            N_("at best {best}, usually {span}"),
            best=in_minutes(texts, time.at_best_min),
            span=span,
        )
    about = in_minutes(texts, time.likely_min)
    return texts.plural(
        "by your own {n} pour: about {about} ({span})",
        "by your own {n} pours: about {about} ({span})",
        learned.pours,
        about=about,
        span=span,
    )


def energy_words(texts: Texts, energy_kj: float) -> str:
    """Heat in kilojoules, whole."""
    return texts(N_("{n} kJ"), n=round(energy_kj))


def pot_words(one: PotHeat, told: Told, seconds: int, texts: Texts) -> tuple[str, tuple[str, ...]]:
    """Title and sentences of one pot."""
    said = (
        *_heating(one, told, texts), *_flakes(one, texts), *_oil(one, texts),
        *_pouring(one, seconds, texts),
    )  # fmt: skip
    return pot_title(one.plan, texts), said


def _heating(one: PotHeat, told: Told, texts: Texts) -> Iterator[str]:
    if one.heat_to_c is None or one.energy_kj is None:
        return
    hot, energy = celsius(texts, one.heat_to_c), energy_words(texts, one.energy_kj)
    if one.time is None:
        yield texts(N_("To {hot}: {energy}."), hot=hot, energy=energy)
        return
    time = heating_words(texts, one.time, told.learned)
    yield texts(N_("To {hot}: {time}; {energy}."), hot=hot, time=time, energy=energy)


def _flakes(one: PotHeat, texts: Texts) -> Iterator[str]:
    """Leftovers are best melted along; what it takes to put them in later."""
    if one.flakes is None or one.flakes_warm_c is None or one.heat_to_c is None:
        return
    yield texts(
        N_(
            "Melt the leftover along. Put set into the melted rest it cools that from {hot} to "
            "about {cooled}; the rest would have to be at {warm} for {hot}."
        ),
        hot=celsius(texts, one.heat_to_c), cooled=celsius(texts, one.flakes.celsius),
        warm=celsius(texts, one.flakes_warm_c),
    )  # fmt: skip


def _oil(one: PotHeat, texts: Texts) -> Iterator[str]:
    if one.mixed is None or one.add_c is None:
        return
    add, cooled = celsius(texts, one.add_c), celsius(texts, one.mixed.celsius)
    if one.warm_c is None or one.heat_to_c is None or one.warm_c > one.heat_to_c:
        yield texts(N_("The oil cools it from {add} to about {cooled}."), add=add, cooled=cooled)
        return
    yield texts(
        N_("The oil cools it from {add} to about {cooled}; added at {warm} it has {add} then."),
        add=add, cooled=cooled, warm=celsius(texts, one.warm_c),
    )  # fmt: skip


def _pouring(one: PotHeat, seconds: int, texts: Texts) -> Iterator[str]:
    if one.pour_c is None or not one.vessels:
        return
    if one.no_time is not None:
        yield texts.say(one.no_time)
        return
    if one.window is None or one.wait_min is None or one.window_c is None:
        return
    quick, likely, slow = one.wait_min
    if likely >= _FEW:
        span = minutes_span(texts, quick, slow)
        yield texts(
            N_("Down to {pour} in about {span}."), pour=celsius(texts, one.pour_c), span=span
        )
    low = celsius(texts, one.window_c[0])
    takes = in_minutes(texts, one.vessels * seconds / 60)
    count = texts.plural(
        "{n} vessel takes {time}", "{n} vessels take {time}", one.vessels, time=takes
    )
    sure, most = one.window.sure, one.window.at_best
    if in_time(one.window, one.vessels):
        yield texts(
            N_("{count} to pour; there is time for all of them before it is colder than {low}."),
            count=count, low=low,
        )  # fmt: skip
        return
    yield texts(
        N_("{count} to pour; before it is colder than {low} there is time for {sure} to {most}."),
        count=count, low=low, sure=sure, most=most,
    )  # fmt: skip


def how_heat(texts: Texts) -> tuple[str, ...]:
    """How heating and pouring of a plan are computed, with sources."""
    return tuple(texts(one) for one in (*HOW_HEATED, HOW_MIXED, *HOW_COOLED))
