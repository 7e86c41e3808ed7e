"""Limits of the site, each once, with value, unit and source; most are only usual.

What a covering, an adhesive or a product really allows stands on its data sheet; a product
card may carry it (``max_slab_humidity_percent`` and others) and then counts instead.
"""

from __future__ import annotations

from datetime import timedelta
from fractions import Fraction

from assistant.limits.limits import PRACTICE, Limit

DECIDES = "the covering's data sheet decides"

DEW_MARGIN = Limit(
    "dew-margin",
    Fraction(3),
    "°C",
    "borrowed from a paint standard, ISO 8502-4, from memory; the product's data sheet decides",
)
# The strictest of the usual 75, 80 and 85: one that lets a wet slab through does harm.
SLAB_HUMIDITY = Limit(
    "slab-humidity",
    Fraction(75),
    "percent",
    f"the default of ASTM F710, tested by ASTM F2170, from memory; {DECIDES}",
)
EMISSION = Limit(
    "emission",
    Fraction(3),
    "lb/1000 ft² in 24 h",
    f"the default of ASTM F710, tested by ASTM F1869, from memory; {DECIDES}",
)
PH_LEAST = Limit(
    "ph-least",
    Fraction(7),
    "pH",
    f"usual for covering adhesives, tested by ASTM F3441, from memory; {DECIDES}",
)
PH_MOST = Limit(
    "ph-most",
    Fraction(10),
    "pH",
    f"usual for covering adhesives, tested by ASTM F3441, from memory; {DECIDES}",
)

SITE_LIMITS = {
    limit.id: limit for limit in (DEW_MARGIN, SLAB_HUMIDITY, EMISSION, PH_LEAST, PH_MOST)
}

TEST_COUNT_SOURCE = "ASTM F2170 and ASTM F1869, from memory"
PROBE_DEPTH_SOURCE = "ASTM F2170, from memory"
PH_TEST_SOURCE = "ASTM F710 has alkalinity tested, now by ASTM F3441, from memory"
NOT_ON_COMPOUND_SOURCE = "ASTM F1869, as trade articles report it: never over patching or levelling"

STALE_AFTER = timedelta(hours=4)
"""Air and slab change with the sun and the door; raising it trusts older readings.
Common practice, no source."""

TESTS_STALE_AFTER = timedelta(days=30)
"""A slab changes with weather, leaks and other trades. Common practice, no source."""

READINGS_STALE_AFTER = timedelta(days=30)
"""Floors are ground, filled and curl. Our own choice, no source."""

ZERO_STALE_AFTER = timedelta(hours=24)
PRIMER_STALE_AFTER = timedelta(hours=24)
"""After either, somebody has been in the room. Common practice, no source: a primer's data
sheet says how long it stays open."""

COLDEST_C, WARMEST_C = Fraction(-30), Fraction(50)
"""Of air and slab: beyond it, it was a slip, or Fahrenheit. Common practice, no source."""
MOST_EMISSION = Fraction(50)
"""Of a test that worked; a soaked slab gives less. Common practice, no source."""

__all__ = [
    "COLDEST_C",
    "DEW_MARGIN",
    "EMISSION",
    "MOST_EMISSION",
    "NOT_ON_COMPOUND_SOURCE",
    "PH_LEAST",
    "PH_MOST",
    "PH_TEST_SOURCE",
    "PRACTICE",
    "PRIMER_STALE_AFTER",
    "READINGS_STALE_AFTER",
    "SITE_LIMITS",
    "SLAB_HUMIDITY",
    "STALE_AFTER",
    "TESTS_STALE_AFTER",
    "TEST_COUNT_SOURCE",
    "WARMEST_C",
    "ZERO_STALE_AFTER",
]
