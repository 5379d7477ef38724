"""`python -m reportgen` is the `reportgen` command."""

from reportgen.cli.main import main

if __name__ == "__main__":
    main()
