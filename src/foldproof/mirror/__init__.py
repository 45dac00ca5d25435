"""The mirrored card: plan, steps and direction words turned over together, then proved like any card.

Left and right change places in the card and in what hands do with it. Lettering, the way up of a pattern, bought shapes
and tools stay as they are: the fence is still the far edge and the stop still stands at its left end, so a distance
from the stop becomes the distance from the other end of the work.
"""
