"""`python -m jobtrack`: the command line."""

import sys

from jobtrack.cli import main

sys.exit(main())
