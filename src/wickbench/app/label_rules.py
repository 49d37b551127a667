"""Rules about what a label says and where: data with source, date and region, and how well read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, cast

from wickbench.app.resources import read_json
from wickbench.app.texts_marker import N_
from wickbench.domain.findings import Finding, Rank

if TYPE_CHECKING:
    from wickbench.app.texts import Texts

RULES_FILE: Final = "label-texts.json"
MEMORY: Final = "memory"
REQUIRED: Final = "required."
"""Keys of findings that come from a rule of law or of a standard begin with this."""

_LOCAL: Final = N_("Local rules and a licensed assessor decide.")
_TOLD: Final[Mapping[str, str]] = {
    "read": N_("After {source}, {date}."),
    "secondary": N_("After {source}, {date}, as others quote it."),
    "quoted": N_("After {source}, {date}, as others quote it."),
    MEMORY: N_("After {source}, {date}, from memory: look it up."),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class TextRule:
    """One rule about the texts of a label in one region.

    Attributes:
        key: what it is about.
        region: ``US``, ``EU`` or ``UK``.
        source, date: the law or standard, and the year of the text that was followed.
        tag: ``read``, ``secondary`` when others quote it, ``memory``.
        numbers: its numbers by name.
        words: its words, where it names some.
    """

    key: str
    region: str
    source: str
    date: str
    tag: str
    numbers: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    words: tuple[str, ...] = ()


@cache
def text_rules() -> Mapping[tuple[str, str], TextRule]:
    """Every rule by what it is about and its region."""
    data = cast("dict[str, list[dict[str, object]]]", read_json("standards", RULES_FILE))
    rules = (
        TextRule(
            key=str(row["key"]),
            region=str(region),
            source=str(row["source"]),
            date=str(row["date"]),
            tag=str(row["tag"]),
            numbers=MappingProxyType(cast("dict[str, float]", row.get("numbers", {}))),
            words=tuple(str(word) for word in cast("list[object]", row.get("words", []))),
        )
        for row in data["rules"]
        for region in cast("list[object]", row["region"])
    )
    return MappingProxyType({(rule.key, rule.region): rule for rule in rules})


def rule_of(key: str, region: str) -> TextRule | None:
    """The rule of a region; ``None`` where it has none."""
    return text_rules().get((key, region))


def ruled(
    rule: TextRule,
    key: str,
    about: tuple[object, ...] = (),
    data: Mapping[str, object] | None = None,
    *,
    rank: Rank = Rank.WATCH,
) -> Finding:
    """A finding with its rule's region, source and date; what nobody has read only notes.

    Args:
        rule: it comes from.
        key: of its sentence, without ``required.``.
        about: what it is about.
        data: for its sentence.
        rank: how much it matters when the rule was read.
    """
    told = {"region": rule.region, "source": rule.source, "date": rule.date, "tag": rule.tag}
    weight = min(rank, Rank.NOTE) if rule.tag == MEMORY else rank
    return Finding(weight, f"{REQUIRED}{key}", {**(data or {}), **told}, about)


def rule_words(texts: Texts, finding: Finding) -> str:
    """Where a finding's rule stands, and who decides; empty when it comes from none."""
    if not finding.key.startswith(REQUIRED) or "source" not in finding.data:
        return ""
    told = _TOLD.get(str(finding.data.get("tag", "")), _TOLD["read"])
    where = texts(told, source=finding.data["source"], date=str(finding.data["date"]))
    return f"{where} {texts(_LOCAL)}"
