"""A pour: its plan, how far it has come, what it takes, and what was laid."""
