"""The workshop file: tables, rows to values, undo journal, migrations, backups."""
