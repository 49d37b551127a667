"""Fields of a candle's small tables and of a test, as data."""

from __future__ import annotations

from wickbench.app.fields import choices, field
from wickbench.app.recipe_fields import CANDLE_FIELDS, TEST_STATE_NAMES
from wickbench.app.texts_marker import N_

EXTRA_FIELDS = (
    field("candle_extra", "item_id", N_("Packaging"), "reference", refers_to="packaging"),
    field("candle_extra", "count", N_("Pieces"), "count", low=1, high=1000),
)
_VERDICTS = {key: TEST_STATE_NAMES[key] for key in ("in_test", "passed", "test_again")}
TEST_FIELDS = (
    field("test_record", "state", N_("The candle is"), "choice", choices=choices(_VERDICTS)),
    field("test_record", "tested_by", N_("Who says so"), "text"),
    field("test_record", "tested_on", N_("Day"), "date"),
    field("test_record", "note", N_("What was seen"), "note"),
)
_FIRST = ("name", "code", "version_id", "vessel_id")
_SOLD = ("lid_id", "identity", "price_money")
_WEIGHT = ("fill_to", "declared_net_g")
FIRST_FIELDS = tuple(spec for spec in CANDLE_FIELDS if spec.name in _FIRST)
WEIGHT_FIELDS = tuple(spec for spec in CANDLE_FIELDS if spec.name in _WEIGHT)
LABEL_FIELDS = tuple(spec for spec in CANDLE_FIELDS if spec.name.endswith("_label_id"))
SOLD_FIELDS = tuple(spec for spec in CANDLE_FIELDS if spec.name in _SOLD)
NOTE_FIELDS = tuple(spec for spec in CANDLE_FIELDS if spec.name == "note")
