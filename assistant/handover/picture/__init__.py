"""The floor as a picture: a plan with its depths, and a cut along a line."""
