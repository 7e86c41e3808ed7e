"""Takes the None out of a type, where a test knows that a value is there."""

from __future__ import annotations

from typing import TypeVar

Value = TypeVar("Value")


def there(value: Value | None) -> Value:
    """The value itself; the test fails where it is missing."""
    assert value is not None
    return value
