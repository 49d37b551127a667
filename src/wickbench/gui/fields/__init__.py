"""What a person types into: one widget per kind of field, and the form built from field rows."""
