"""The record of a job: events in one SQLite file, append-only, and where such files live."""
