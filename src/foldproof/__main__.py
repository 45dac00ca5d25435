"""`python -m foldproof`."""

import sys

from foldproof.cli import main

if __name__ == "__main__":
    sys.exit(main())
