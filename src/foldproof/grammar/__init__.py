"""The grammar for people and for editors: a reference page and a JSON Schema, both made from the reader's own table."""
