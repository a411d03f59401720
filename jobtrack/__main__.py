"""`python -m jobtrack`: the command line."""

import sys

from jobtrack.cli.main import main

sys.exit(main())
