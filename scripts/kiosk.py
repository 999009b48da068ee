"""Write the site as a kiosk's folder and ZIP: python3 scripts/kiosk.py --help"""

import sys

if sys.version_info < (3, 11):
    sys.exit(f"Python 3.11 or newer is needed to start this; this is Python {sys.version.split()[0]}.")

from house.kiosk import main
from house.say import guarded

if __name__ == "__main__":
    sys.exit(guarded(main))
