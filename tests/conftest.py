"""Before anything else is imported."""

import os

# Threads of the linear algebra spin for a core that another process has, and a hundred times
# as long as the work takes; the matrices here are small.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
