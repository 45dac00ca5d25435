"""A new recipe from a construction and a finished size: texts with gaps, filled with the numbers of that size."""
