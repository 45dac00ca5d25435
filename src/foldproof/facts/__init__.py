"""Published tables: papers, envelopes, postal limits, tools and their cautions, each row with its source."""
