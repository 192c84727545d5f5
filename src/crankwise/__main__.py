"""Run Crankwise as `python -m crankwise`."""

import sys

from crankwise.cli import main

sys.exit(main())
