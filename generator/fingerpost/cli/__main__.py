"""`python -m fingerpost.cli` is the command `fingerpost`."""

import sys

from fingerpost.cli.main import main

sys.exit(main())
