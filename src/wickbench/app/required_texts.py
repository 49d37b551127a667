"""What the rules of where it is sold want on a label: net weight, maker, identity, lot, caution.

Each finding names its rule, source and date; local rules and a licensed assessor decide.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.business import place_rules
from wickbench.app.label_check import Checked, LabelCheck, held_by, solid
from wickbench.app.label_rules import TextRule, merged, rule_of, ruled
from wickbench.app.net_lines import around
from wickbench.app.required_heights import height_findings
from wickbench.app.required_net import net_findings
from wickbench.app.required_place import place_findings, text_ink_in_front

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.app.business import PlaceRule
    from wickbench.app.settings import Settings
    from wickbench.domain.findings import Finding

_EVERY_LABEL: Final = "every label"
_ONE_LINE: Final[dict[str, str]] = {
    "business_name": "business",
    "business_street": "business_address",
    "business_city": "business_address",
    "business_state": "business_address",
    "business_postcode": "business_address",
}


def required_findings(check: LabelCheck) -> Checked:
    """Everything that the rules want of this label, and what was looked at and is well."""
    kind = check.laid.design.kind
    if kind not in {"jar", "lid"}:
        return Checked()
    heights = height_findings(check)
    found = [*net_findings(check), *heights.wrong, *place_findings(check)]
    if kind == "jar":
        for region in check.regions:
            found += [*_maker(check, region), *_identity(check, region), *_lot(check, region)]
            found += _caution(check, region)
    return Checked(merged(found), merged(heights.well))


def hazard_findings(settings: Settings) -> list[Finding]:
    """The hazard label of the EU and the UK is not made here."""
    rules = [rule for one in settings.regions if (rule := rule_of("hazard-label", one))]
    return list(merged(ruled(rule, "hazard-label-not-made") for rule in rules))


def _maker(check: LabelCheck, region: str) -> Iterator[Finding]:
    """Name and place as this region wants them on every label."""
    for rule in place_rules():
        if rule.region != region or rule.on != _EVERY_LABEL:
            continue
        lacking = [need for need in rule.needs if not _says_need(check, need, region)]
        if any(_not_filled_in(check, need) for need in lacking):
            yield ruled(_as_text_rule(rule), "business-empty", ("business",))
        elif lacking:
            words = tuple(dict.fromkeys(_ONE_LINE.get(need, need) for need in lacking))
            key = "maker-missing" if "business" in words else "place-missing"
            if words == ("electronic",):
                key = "reach-missing"
            yield ruled(_as_text_rule(rule), key)


def _not_filled_in(check: LabelCheck, need: str) -> bool:
    """Whether the label has the field, and the business details have nothing for it."""
    field = _ONE_LINE.get(need)
    return field is not None and not check.settings.text(need) and check.holds(field)


def _says_need(check: LabelCheck, need: str, region: str) -> bool:
    settings = check.settings
    if need == "electronic":
        return any(check.says(settings.text(one)) for one in ("business_email", "business_web"))
    if need == "business_street" and region == "US" and settings["business_street_listed"]:
        return True
    return check.says(settings.text(need))


def _as_text_rule(rule: PlaceRule) -> TextRule:
    return TextRule(
        key="maker", region=rule.region, source=rule.source, date=rule.date, tag=rule.tag
    )


def _identity(check: LabelCheck, region: str) -> Iterator[Finding]:
    """What the product is, where it is seen first."""
    rule = rule_of("identity", region)
    if rule is None or check.candle is None:
        return
    identity = check.values.get("identity", "")
    if not _says_what_it_is(check, identity, rule):
        if identity:
            yield ruled(rule, "identity-missing", (), {"identity": identity})
        else:
            yield ruled(rule, "identity-unknown")
        return
    front = rule_of("front", region)
    places = [at for at, one in enumerate(check.laid.design.elements) if "identity" in held_by(one)]
    inks = [around(check.laid.draws_of(at)) for at in places]
    if front and inks and not any(ink and text_ink_in_front(check, ink) for ink in inks):
        yield ruled(front, "identity-not-in-front", ("element", places[0]))


def _says_what_it_is(check: LabelCheck, identity: str, rule: TextRule) -> bool:
    """As the candle says it, or in a word typed by hand that is not the maker's own name."""
    if check.says(identity):
        return True
    maker = solid(check.settings.text("business_name"))
    said = check.said.replace(maker, " ") if maker else check.said
    return any(word in said for word in rule.words)


def _lot(check: LabelCheck, region: str) -> Iterator[Finding]:
    """A batch by which a candle is found again; it may stand on the caution sticker instead."""
    rule = rule_of("lot", region)
    lot = check.values.get("lot", "")
    beside = solid(" ".join(check.beside))
    if rule is None or check.says(lot) or (lot and solid(lot) in beside):
        return
    if not lot and check.holds("lot"):
        return  # the field stands there; that it is empty is told already
    yield ruled(rule, "lot-missing")


def _caution(check: LabelCheck, region: str) -> Iterator[Finding]:
    """The fire-safety label belongs to the candle; on its base as a rule."""
    rule = rule_of("caution", region)
    if rule is not None and check.candle is not None and check.caution is False:
        yield ruled(rule, "caution-missing", (), {"candle": check.candle.name})
