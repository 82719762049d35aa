"""`python -m saywright`, for where the command is not on the path."""

import sys

from saywright.commands.main import main

if __name__ == "__main__":
    sys.exit(main())
