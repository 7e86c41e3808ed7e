"""Replies on a terminal, and the typed line."""
