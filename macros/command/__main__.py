"""`python -m macros.command`."""

import sys

from macros.command import main

sys.exit(main())
