"""Name and place of the business: how they stand on labels, and what a region asks for."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Final, cast

from wickbench.app.resources import read_json
from wickbench.app.texts_marker import N_
from wickbench.domain.findings import Finding, Rank

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.app.settings import Settings
    from wickbench.app.texts import Texts

RULES_FILE: Final = "maker-and-place.json"
REGION_NAMES: Final[Mapping[str, str]] = {
    "US": N_("United States"),
    "EU": N_("European Union"),
    "UK": N_("United Kingdom"),
}
ROLES: Final[Mapping[str, str]] = {
    "distributor": N_("Distributed by {name}"),
    "made_for": N_("Manufactured for {name}"),
}
"""Who is not the maker says so before the name (16 CFR 500.5(c))."""

_HAZARD: Final = "hazard labels"
_READ: Final = "read"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceRule:
    """What one rule wants to stand on a label.

    Attributes:
        region: "US", "EU" or "UK".
        needs: names of settings; "electronic" is met by an e-mail or a web address.
        source, date: the rule and the year of the text that was followed.
        tag: "read" when the text itself was read; what is not read never warns, it notes.
        on: "every label" or "hazard labels".
    """

    region: str
    needs: tuple[str, ...]
    source: str
    date: str
    tag: str
    on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BusinessView:
    """Name and place as they stand on labels in one region.

    Attributes:
        region: "US", "EU" or "UK".
        lines: from top to bottom; empty when nothing is filled in.
        findings: what is missing, with rule, source and date in their data.
        rules: those that were looked at.
    """

    region: str
    lines: tuple[str, ...]
    findings: tuple[Finding, ...]
    rules: tuple[PlaceRule, ...]


@cache
def place_rules() -> tuple[PlaceRule, ...]:
    """Every rule about name and place that the program knows."""
    data = cast("dict[str, list[dict[str, object]]]", read_json("standards", RULES_FILE))
    return tuple(
        PlaceRule(
            region=str(row["region"]),
            needs=tuple(str(need) for need in cast("list[object]", row["needs"])),
            source=str(row["source"]),
            date=str(row["date"]),
            tag=str(row["tag"]),
            on=str(row["on"]),
        )
        for row in data["rules"]
    )


def business_views(settings: Settings, texts: Texts) -> tuple[BusinessView, ...]:
    """One view for each region sold in; the United States when none is chosen.

    Args:
        settings: of the file, maybe with what is being typed.
        texts: in the language of labels.
    """
    return tuple(
        BusinessView(
            region=region,
            lines=business_lines(settings, region, texts),
            findings=business_findings(settings, region),
            rules=tuple(rule for rule in place_rules() if rule.region == region),
        )
        for region in settings.regions or ("US",)
    )


def business_lines(settings: Settings, region: str, texts: Texts) -> tuple[str, ...]:
    """Name, place and how to reach the business, line by line as on a label.

    Args:
        settings: of the file.
        region: "US", "EU" or "UK": says the order of the place and what stands below it.
        texts: in the language of labels.
    """
    lines = [business_name(settings, texts), *place_lines(settings, region)]
    if region != "US":
        lines += [settings.text("business_phone"), _electronic(settings)]
    return tuple(line for line in lines if line)


def business_name(settings: Settings, texts: Texts) -> str:
    """The name, with what the business is to the candle when it is not its maker."""
    name = settings.text("business_name")
    role = ROLES.get(settings.text("business_role"), "")
    return texts(role, name=name) if role and name else name


def business_place(settings: Settings) -> str:
    """The place on one line, for a label that goes wherever is sold.

    The region sold in first gives the order; the street stays on as soon as one region wants it.
    """
    regions = settings.regions or ("US",)
    street = not all(_without_street(settings, region) for region in regions)
    return ", ".join(place_lines(settings, regions[0], street=street))


def place_lines(settings: Settings, region: str, *, street: bool | None = None) -> tuple[str, ...]:
    """Street and town in the order that people of a region know.

    Args:
        settings: of the file.
        region: "US", "EU" or "UK".
        street: whether the street stands on it; as the region allows when absent.
    """
    with_street = not _without_street(settings, region) if street is None else street
    part = settings.text
    city, state, postcode = (
        part("business_city"), part("business_state"), part("business_postcode")
    )  # fmt: skip
    if region == "US":
        town = _joined(", ", city, _joined(" ", state, postcode))
    elif region == "UK":
        town = _joined(", ", city, state, postcode)
    else:
        town = _joined(", ", _joined(" ", postcode, city), state)
    lines = (part("business_street") if with_street else "", town, part("business_country"))
    return tuple(line for line in lines if line)


def business_findings(settings: Settings, region: str) -> tuple[Finding, ...]:
    """What the rules of a region want and is not filled in, each said once."""
    found: dict[str, Finding] = {}
    for rule in place_rules():
        if rule.region != region:
            continue
        data = {"region": region, "source": rule.source, "date": rule.date}
        rank = Rank.WATCH if rule.tag == _READ and rule.on != _HAZARD else Rank.NOTE
        for need in _missing(settings, rule):
            key = f"business.no-{need.removeprefix('business_')}"
            found.setdefault(key, Finding(rank, key, data, ("business", need)))
    return tuple(found.values())


def _missing(settings: Settings, rule: PlaceRule) -> Sequence[str]:
    def there(need: str) -> bool:
        if need == "electronic":
            return bool(_electronic(settings))
        if need == "business_street" and _without_street(settings, rule.region):
            return True
        return bool(settings.text(need).strip())

    return [need for need in rule.needs if not there(need)]


def _electronic(settings: Settings) -> str:
    return settings.text("business_email") or settings.text("business_web")


def _without_street(settings: Settings, region: str) -> bool:
    """The street may be left off where anybody can look it up (16 CFR 500.5(b), 2015)."""
    return region == "US" and bool(settings["business_street_listed"])


def _joined(mark: str, *parts: str) -> str:
    return mark.join(part for part in parts if part)
