"""One module a revision. A revision that was released is never edited; the next one changes what it left."""
