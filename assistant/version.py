"""The program's version, defined here only; CHANGELOG.md says what it means."""

__version__ = "0.2.0"
