"""Replies as data, and the words and figures that they are made of."""
