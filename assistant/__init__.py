"""Leadsman, a field assistant for people who level floors."""

import os

# The matrices of a floor are small. Spread over several threads each step waits for the
# slowest of them, and where the processor has other work (a recogniser, say) a reply that
# takes 40 milliseconds takes seconds. Read by the libraries when they are first loaded.
for _name in ("OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(_name, "1")
