"""Fields of any form: typed text to a stored value, a stored value to text, drafts kept."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wickbench.app import dates
from wickbench.app.texts_marker import N_
from wickbench.app.workspace import act
from wickbench.domain.errors import CannotRead, DomainError, OutOfRange
from wickbench.domain.quantities import parse, to_base
from wickbench.storage import records, state

if TYPE_CHECKING:
    from wickbench.app.fields import FieldSpec
    from wickbench.app.workspace import Workspace

Value = str | float | int | None
_LONGEST = {"text": 300, "note": 20_000}


def read_field(
    workspace: Workspace, spec: FieldSpec, typed: str, *, prefer: str | None = None
) -> Value:
    """The value of typed text in the kind's unit; ``None`` for an empty field.

    ``prefer`` is "decimal" or "group", the person's answer to an earlier question.

    Raises:
        CannotRead: it is no value of this field; ``Ambiguous`` when it has two readings.
        OutOfRange: it is a value that makes no sense here.
    """
    text = typed.strip()
    if not text:
        # "Nothing" can be a choice of its own, and must not bring a setting's default back.
        return "" if any(choice.value == "" for choice in spec.choices) else None
    if spec.kind in _LONGEST:
        if len(text) > _LONGEST[spec.kind] or "\0" in text:
            raise CannotRead("field.too-long", most=_LONGEST[spec.kind])
        if spec.check is not None:
            spec.check(text)
        return text
    if spec.kind == "date":
        return dates.parse_date(text, workspace.clock.today(), workspace.texts.units.locale)
    if spec.kind == "choice":
        return _chosen(spec, text)
    if spec.kind in {"yes_no", "reference"}:
        return _whole(text)
    return _quantity(workspace, spec, text, prefer)


def _whole(text: str) -> int:
    if not text.isdigit():
        raise CannotRead("field.not-a-choice", typed=text)
    return int(text)


def _chosen(spec: FieldSpec, text: str) -> Value:
    for choice in spec.choices:
        if str(choice.value) == text:
            return str(choice.value)
    raise CannotRead("field.not-a-choice", typed=text)


def _quantity(workspace: Workspace, spec: FieldSpec, text: str, prefer: str | None) -> Value:
    units = workspace.texts.units
    value = parse(
        text,
        spec.kind,
        locale=units.locale,
        assume=units.assumed(spec.kind),
        imperial=units.imperial,
        prefer=prefer,
    )
    check_range(workspace, spec, value)
    return int(value) if spec.kind in {"count", "days"} else value


def check_range(workspace: Workspace, spec: FieldSpec, value: float) -> None:
    """Refuse what is outside the field's sensible range, saying the range.

    Raises:
        OutOfRange: below ``low``, above ``high``, or no number at all.
    """
    if not math.isfinite(value):
        raise OutOfRange("quantity.not-finite")
    _check_unit(workspace, spec, value)
    if spec.low is not None and value < spec.low:
        raise OutOfRange("field.too-small", least=plain(workspace, spec, spec.low))
    if spec.high is not None and value > spec.high:
        raise OutOfRange("field.too-large", most=plain(workspace, spec, spec.high))


def _check_unit(workspace: Workspace, spec: FieldSpec, value: float) -> None:
    """Say which unit is missing where a density was copied from a data sheet without it.

    Raises:
        OutOfRange: it makes no sense in g/mL, but does in kg/m³ or lb/gal.
    """
    if spec.kind != "density" or spec.low is None or spec.high is None or value <= spec.high:
        return
    for unit in ("kg/m³", "lb/gal"):
        meant = to_base(value, "density", unit)
        if spec.low <= meant <= spec.high:
            typed = f"{workspace.texts.number(value, 3).rstrip('0').rstrip('.,')} {unit}"
            raise OutOfRange("field.density-unit", meant=plain(workspace, spec, meant), typed=typed)


def plain(workspace: Workspace, spec: FieldSpec, value: float) -> str:
    """A value of the field's kind with its unit, for sentences and hints."""
    return workspace.texts.units.read(value, spec.kind)


def shown(workspace: Workspace, spec: FieldSpec, value: object) -> str:
    """Text that stands in the field for a stored value."""
    if value is None:
        return ""
    if spec.kind == "date":
        return dates.short_date(str(value))
    if spec.is_quantity and isinstance(value, (int, float)):
        if spec.kind == "money":
            return workspace.texts.number(value, 4 if round(value * 100, 6) % 1 else 2)
        return workspace.texts.units.full(value, spec.kind)
    return str(value)


def understood(workspace: Workspace, spec: FieldSpec, typed: str) -> str:
    """What the field understood, to stand beside it while typing; empty for nothing to add.

    Raises:
        DomainError: as ``read_field``.
    """
    value = read_field(workspace, spec, typed)
    if value is None or not spec.is_quantity:
        if spec.kind == "date" and value is not None:
            return workspace.texts.date(str(value))
        return ""
    if spec.kind in {"count", "days", "number"}:
        return ""
    if spec.kind == "money":
        return workspace.texts.money(float(value))
    return _echo(workspace, spec.kind, float(value), typed)


def _echo(workspace: Workspace, kind: str, value: float, typed: str) -> str:
    """The value as it is read; only in the second unit when the typing says the first."""
    units = workspace.texts.units
    if units.full(value, kind).replace("\N{NO-BREAK SPACE}", " ") != typed.strip():
        return units.read(value, kind)
    second = units.second(kind)
    return units.one(value, kind, second) if second else ""


def set_field(
    workspace: Workspace,
    spec: FieldSpec,
    record: int,
    typed: str,
    *,
    origin: object = None,
    prefer: str | None = None,
) -> None:
    """Read, check and store one field as one undoable act; unreadable text is kept as a draft.

    Raises:
        DomainError: the text stays as a draft of the field, with its sentence.
    """
    try:
        value = read_field(workspace, spec, typed, prefer=prefer)
    except DomainError:
        keep_draft(workspace, spec, record, typed)
        raise
    drop_draft(workspace, spec, record)
    store_field(workspace, spec, record, value, origin=origin)


def store_field(
    workspace: Workspace, spec: FieldSpec, record: int, value: object, *, origin: object = None
) -> None:
    """Store a value that is already read."""
    if spec.table == "setting":
        workspace.set_setting(spec.name, value, origin)
        return
    label = act(N_("Change “{what}”"), spec.label)
    with workspace.step(label, merge=(spec.table, record, spec.name), origin=origin) as connection:
        records.update(connection, spec.table, record, {spec.name: value})


def keep_draft(workspace: Workspace, spec: FieldSpec, record: int, typed: str) -> None:
    """Keep text that cannot be read, so that it is there again after a restart."""
    with workspace.unjournalled("drafts", origin=spec) as connection:
        state.set_draft(connection, spec.table, record, spec.name, typed.replace("\0", ""))


def drop_draft(workspace: Workspace, spec: FieldSpec, record: int) -> None:
    """Forget the draft of a field, if there is one."""
    with workspace.read() as connection:
        kept = state.drafts(connection, spec.table, record)
    if spec.name in kept:
        with workspace.unjournalled("drafts", origin=spec) as connection:
            state.clear_draft(connection, spec.table, record, spec.name)
