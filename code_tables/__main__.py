"""``python -m code_tables``: check every table, print the counts; exit status 1 where something is wrong."""

from __future__ import annotations

import sys
from pathlib import Path

from code_tables.checker import check
from code_tables.reading import FOLDER


def main(arguments: list[str]) -> int:
    """Check the tables in the folder given (or the package's own); 0 all is well, 1 problems, 2 wrong command."""
    if len(arguments) > 1 or (arguments and arguments[0].startswith("-")):
        print("usage: python -m code_tables [FOLDER]", file=sys.stderr)
        return 2
    report = check(Path(arguments[0]) if arguments else FOLDER)
    for name, rows in report.counts.items():
        print(f"{name}.csv: {rows} rows")
    for problem in report.problems:
        print(problem, file=sys.stderr)
    print(f"{sum(report.counts.values())} rows, {len(report.problems)} problems")
    return 1 if report.problems else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
