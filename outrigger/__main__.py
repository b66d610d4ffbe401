"""`python -m outrigger`."""

from outrigger.cli import main

main()
