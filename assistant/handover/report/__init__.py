"""A job on paper and on a page: what was found, decided, used and left unchecked."""
