"""All tables of the workshop file, in one MetaData."""

from __future__ import annotations

from wickbench.storage import tables_catalog, tables_house, tables_labels, tables_making
from wickbench.storage.schema import METADATA

__all__ = ["METADATA", "tables_catalog", "tables_house", "tables_labels", "tables_making"]
