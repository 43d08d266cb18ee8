"""``python -m triage``."""

from triage.cli import main

if __name__ == "__main__":
    main()
