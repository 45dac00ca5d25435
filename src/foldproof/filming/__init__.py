"""How the card is filmed: shots, set-ups, an order in which to film, what to say, how long it runs."""
