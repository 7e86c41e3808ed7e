"""How far a survey can be trusted: set-ups, ties, drift, suspect readings, how sure."""
