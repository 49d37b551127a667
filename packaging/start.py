"""One command from a fresh clone: ``python3 packaging/start.py demo | test | run [FILE]``.

This file parses on every Python that a machine may still call ``python3``, so that an old one
hears what is missing. The commands stand in ``commands.py`` beside it. Standard library only.
"""

import os
import shutil
import subprocess
import sys

OLDEST = (3, 11)
NEWEST_MINOR = 14

if sys.version_info < OLDEST:
    which = getattr(shutil, "which", lambda _name: None)
    for minor in range(NEWEST_MINOR, OLDEST[1] - 1, -1):
        newer = which("python3.%d" % minor)  # noqa: UP031  (the oldest Pythons have no f-strings)
        if newer and os.name == "posix" and subprocess.call([newer, "-c", ""]) == 0:
            os.execv(newer, [newer] + sys.argv)  # noqa: S606, RUF005  (no shell; old syntax)
    sys.exit(
        "Wickbench needs Python 3.11 or newer; this is Python %d.%d.\n"  # noqa: UP031  (as above)
        "Install a newer Python, then type: python3.11 packaging/start.py demo"
        % sys.version_info[:2]
    )

from commands import main  # noqa: E402  (its syntax is too new to be read before the check)

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
