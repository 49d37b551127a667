"""Qt: main window, docks, pages, fields, tables and painting, cut by feature."""
