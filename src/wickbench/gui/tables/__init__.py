"""One table model for every table; a column is an object."""
