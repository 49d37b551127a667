"""The English sentence for every key that errors and findings carry, one module per topic."""
