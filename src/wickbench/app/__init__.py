"""What a person can do: workspace, operations, view values, settings, texts, questions."""
