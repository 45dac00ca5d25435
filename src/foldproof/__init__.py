"""Foldproof: folded card recipes proved against the folded card, drawn, and printed three ways."""

__version__ = "0.1.0"
