"""The materials dock, and the panel that shows the stock of any item."""
