"""Trouble codes in a line, and the pieces that stand beside them."""
