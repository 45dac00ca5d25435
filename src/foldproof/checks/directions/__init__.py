"""The direction words of a step against the table: left and right, front and back, inside and outside, turns."""
