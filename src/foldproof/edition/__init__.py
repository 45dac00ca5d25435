"""The same construction in the other unit: a plan of its own on a ruler's marks, proved like any other.

The card is first put into the other unit exactly. Then its independent measures and plain lengths are moved to marks of
a ruler near by; sums are worked out anew, so that they hold; each number of the steps is found again from what it
stands for; words follow their actions. Of many such plans the nearest one is taken that is sound in every check.
"""
