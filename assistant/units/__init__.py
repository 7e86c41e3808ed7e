"""Units: exact factors, checked kinds, and lengths and temperatures as they are shown."""
