"""The guide: the steps of a job as data, and the checks they name."""
