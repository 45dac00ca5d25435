"""The steps of a card told anew for the same construction with other measures.

The plan of the card has changed; each number of each action is found again from what it stood for on the first card (a
score of the plan, a corner, a border, the size of a piece), as the work lies at that moment. Words follow their
actions. What comes out is a recipe like any other, and is proved like any other.
"""
