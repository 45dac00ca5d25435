"""The steps carried out on a virtual table, and the proof that they make the plan."""
