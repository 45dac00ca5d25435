"""Exact plane geometry of a piece of paper, in rational numbers."""
