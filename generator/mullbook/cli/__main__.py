"""`python -m mullbook.cli`."""

from mullbook.cli import main

main()
