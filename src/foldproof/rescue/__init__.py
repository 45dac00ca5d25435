"""After a slip: whether the card can still be saved, and how, proved like any card."""
