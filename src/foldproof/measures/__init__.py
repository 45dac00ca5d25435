"""Exact measures: reading them as people write them, arithmetic, and writing them out again."""
