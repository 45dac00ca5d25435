"""How much a class may be off, and what comes of it: the errors of hands carried through the steps to the card."""
