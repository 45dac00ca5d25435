"""YAML text to a typed recipe, with a place kept for every value."""
