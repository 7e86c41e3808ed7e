"""Values that may be missing in general, and that a test knows to be there."""

from __future__ import annotations

from typing import TypeVar

Value = TypeVar("Value")


def there(value: Value | None) -> Value:
    """The value itself; the test fails where it is missing."""
    assert value is not None
    return value
