"""The command line: what can be asked for on it, and typed lines played from files."""
