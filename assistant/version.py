"""The program's version, said once; CHANGELOG.md says what it means."""

__version__ = "0.2.0"
