"""Slips: one small mistake in a recipe at a time, tried to see whether the program notices."""
