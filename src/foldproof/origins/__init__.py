"""Where a number of a card comes from, and every place where it is used."""
