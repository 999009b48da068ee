"""Set up, build and serve the site: python3 scripts/serve.py --help"""

import sys

if sys.version_info < (3, 11):
    sys.exit(f"Python 3.11 or newer is needed to start this; this is Python {sys.version.split()[0]}.")

from house.say import guarded
from house.serving import main

if __name__ == "__main__":
    sys.exit(guarded(main))
