"""The readers of single rows, by what kind of row it is."""
