"""`python -m fitwright` is the same as `fitwright`."""

import sys

from fitwright.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
