"""Scans of a floor: how they lie, and what volumes, patches and differences they show."""
