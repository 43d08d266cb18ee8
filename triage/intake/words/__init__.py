"""Wordings of the trade: tables of words, no reading."""
