"""Rules about what a label says and where: data with source, date and region, and how well read."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
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

_TOLD: Final[Mapping[str, str]] = {
    "read": N_("{source}, {date}"),
    "secondary": N_("{source}, {date} (as others quote it)"),
    "quoted": N_("{source}, {date} (as others quote it)"),
    MEMORY: N_("{source}, {date} (from memory: look it up)"),
}
_AFTER: Final = N_("After {rules}. Local rules and a licensed assessor decide.")
_RULES: Final = "rules"
_OF_A_RULE: Final = frozenset({"region", "source", "date", _RULES})


Rules = tuple[tuple[str, str, str], ...]
"""Source, date and how well it is known, of each rule."""


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
    told = {
        "region": rule.region,
        "source": rule.source,
        "date": rule.date,
        _RULES: ((rule.source, rule.date, rule.tag),),
    }
    weight = min(rank, Rank.NOTE) if rule.tag == MEMORY else rank
    return Finding(weight, f"{REQUIRED}{key}", {**(data or {}), **told}, about)


def merged(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """What several regions want alike, said once with all their rules."""
    kept: dict[object, Finding] = {}
    for one in findings:
        said = {name: value for name, value in one.data.items() if name not in _OF_A_RULE}
        key = (one.key, one.about, repr(sorted(said.items())))
        kept[key] = _both(kept[key], one) if key in kept else one
    return tuple(kept.values())


def rule_words(texts: Texts, finding: Finding) -> str:
    """Where a finding's rules stand, and who decides; empty when it comes from none."""
    rules = finding.data.get(_RULES)
    if not isinstance(rules, tuple):
        return ""
    told = (
        texts(_TOLD.get(tag, _TOLD["read"]), source=source, date=date)
        for source, date, tag in rules
    )
    return texts(_AFTER, rules="; ".join(told))


def _both(first: Finding, second: Finding) -> Finding:
    if _RULES not in first.data or _RULES not in second.data:
        return first
    data = dict(first.data)
    data["region"] = f"{data['region']} + {second.data['region']}"
    rules = (*cast("Rules", data[_RULES]), *cast("Rules", second.data[_RULES]))
    data[_RULES] = tuple(dict.fromkeys(rules))
    return Finding(max(first.rank, second.rank), first.key, data, first.about)
