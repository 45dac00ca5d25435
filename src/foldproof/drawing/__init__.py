"""From the state of the table and the card to drawings: a scene first, ink last."""
