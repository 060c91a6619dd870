"""`python -m procgen`."""

import sys

from procgen.cli.main import main

sys.exit(main())
