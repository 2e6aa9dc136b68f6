"""`python -m archdiff`."""

import sys

from archdiff.cli import main

sys.exit(main())
