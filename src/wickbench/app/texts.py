"""One value that says everything: sentences in the person's language, quantities in their units."""

from __future__ import annotations

import datetime as dt
import gettext
import importlib
import pkgutil
from functools import lru_cache
from typing import TYPE_CHECKING

from typing_extensions import override

from wickbench.app import sentences
from wickbench.app.texts_marker import N_
from wickbench.app.units import Units
from wickbench.domain.errors import DomainError
from wickbench.domain.quantity_format import format_quantity

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.domain.findings import Finding

PSEUDO = "xx"
# The longest ending counts: a density is no volume.
_KIND_OF_ENDING = {
    "_g_per_ml": "density",
    "_g": "mass",
    "_ml": "volume",
    "_mm": "length",
    "_c": "temperature",
    "_percent": "percent",
}


@lru_cache(1)
def all_sentences() -> dict[str, str]:
    """English sentence of every key, gathered from the topics of ``app.sentences``."""
    table: dict[str, str] = {}
    for topic in pkgutil.iter_modules(sentences.__path__):
        module = importlib.import_module(f"{sentences.__name__}.{topic.name}")
        table.update(module.SENTENCES)
    return table


class _Pseudo(gettext.NullTranslations):
    """Marks every sentence that passed through gettext; bare ones stand out."""

    @override
    def gettext(self, message: str) -> str:
        return f"⟦{message}⟧"

    @override
    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return f"⟦{msgid1 if n == 1 else msgid2}⟧"


def translations(language: str, folder: Path | None) -> gettext.NullTranslations:
    """Catalog of a language; English and unknown languages say the sentence as written."""
    if language == PSEUDO:
        return _Pseudo()
    if folder is None:
        return gettext.NullTranslations()
    return gettext.translation("wickbench", folder, languages=[language], fallback=True)


class Texts:
    """Call it with an English sentence to get the person's; ``say`` for errors and findings."""

    def __init__(
        self, language: str = "en", units: Units | None = None, folder: Path | None = None
    ) -> None:
        self.language = language
        self.units = units or Units()
        self.folder = folder
        self._catalog = translations(language, folder)

    def with_units(self, units: Units) -> Texts:
        """The same language, other units."""
        return Texts(self.language, units, self.folder)

    def in_language(self, language: str) -> Texts:
        """The same units, another language (papers and labels have their own)."""
        return Texts(language, self.units, self.folder)

    def __call__(self, sentence: str, /, **data: object) -> str:
        """Translate, then fill in the placeholders."""
        if not sentence:
            return ""
        said = self._catalog.gettext(sentence)
        return said.format(**self._shown(data)) if data else said

    def plural(self, one: str, many: str, n: int, /, **data: object) -> str:
        """Translate by number; ``{n}`` is filled in too."""
        return self._catalog.ngettext(one, many, n).format(**self._shown({"n": n} | data))

    def say(self, what: DomainError | Finding) -> str:
        """The sentence of an error or finding."""
        sentence = all_sentences().get(what.key)
        if sentence is None:
            return str(what) if isinstance(what, DomainError) else f"{what.key} {dict(what.data)}"
        return self._catalog.gettext(sentence).format(**self._shown(dict(what.data)))

    def quantity(
        self, value: float, kind: str, *, step: float | None = None, both: bool = True
    ) -> str:
        """A quantity for reading: "3070 g · 6 lb 12.3 oz" when the settings show both."""
        return self.units.read(value, kind, step=step, both=both)

    def number(self, value: float, digits: int = 2) -> str:
        """A plain number with the locale's decimal mark."""
        return format_quantity(value, "number", "", digits=digits, locale=self.units.locale)

    def money(self, value: float, digits: int = 2) -> str:
        """An amount with the currency of the file."""
        sign, before = _CURRENCIES.get(self.units.currency, (f"{self.units.currency} ", True))
        amount = self.number(abs(value), digits)
        minus = "−" if value < 0 else ""
        return f"{minus}{sign}{amount}" if before else f"{minus}{amount} {sign}"

    def date(self, iso: str | dt.date) -> str:
        """A date in words: "Saturday 28 November 2026"."""
        day = dt.date.fromisoformat(iso) if isinstance(iso, str) else iso
        weekday = self(_WEEKDAYS[day.weekday()])
        month = self(_MONTHS[day.month - 1])
        return self(
            N_("{weekday} {day} {month} {year}"),
            weekday=weekday,
            day=str(day.day),
            month=month,
            year=str(day.year),
        )

    def day(self, iso: str | dt.date) -> str:
        """A date without its weekday: "28 November 2026"."""
        day = dt.date.fromisoformat(iso) if isinstance(iso, str) else iso
        month = self(_MONTHS[day.month - 1])
        return self(N_("{day} {month} {year}"), day=str(day.day), month=month, year=str(day.year))

    def _shown(self, data: dict[str, object]) -> dict[str, object]:
        return {name: self._one(name, value) for name, value in data.items()}

    def _one(self, name: str, value: object) -> object:
        if isinstance(value, (tuple, list, frozenset)):
            return ", ".join(str(self._one(name, one)) for one in value)
        if isinstance(value, str) and value and name.endswith("_on"):
            return self.date(value)
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            return value
        if name.endswith("_money"):
            return self.money(value)
        for ending, kind in _KIND_OF_ENDING.items():
            if name.endswith(ending):
                return self.quantity(value, kind)
        return str(value) if isinstance(value, int) else self.number(value).rstrip("0").rstrip(".,")


_CURRENCIES = {
    "USD": ("$", True),
    "EUR": ("€", False),
    "GBP": ("£", True),
    "CAD": ("C$", True),
    "AUD": ("A$", True),
    "CHF": ("CHF ", True),
}
_WEEKDAYS = (
    N_("Monday"),
    N_("Tuesday"),
    N_("Wednesday"),
    N_("Thursday"),
    N_("Friday"),
    N_("Saturday"),
    N_("Sunday"),
)
_MONTHS = (
    N_("January"),
    N_("February"),
    N_("March"),
    N_("April"),
    N_("May"),
    N_("June"),
    N_("July"),
    N_("August"),
    N_("September"),
    N_("October"),
    N_("November"),
    N_("December"),
)
