"""Lets ``python -m wickbench`` start the program."""

from __future__ import annotations

import sys

from wickbench.main import main

sys.exit(main())
