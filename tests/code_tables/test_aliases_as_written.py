"""A name as the tables list it is found without the folded index; both ways say the same of every alias."""

from __future__ import annotations

from code_tables import load
from triage.intake.naming.module_index import Index
from triage.intake.words.module_words import all_tokens, drop_fillers, tokens


def test_an_alias_as_written_means_what_its_words_mean() -> None:
    aliases = load().aliases
    index = Index(aliases)
    for alias in [*aliases, *map(str.upper, aliases)]:
        words = tokens(alias)
        found = index.as_written(alias, words)
        # A capital that folds to other letters is found by its words alone.
        assert found is None or found == index.exact(words), alias
    assert all(index.as_written(alias, tokens(alias)) for alias in aliases)


def test_many_names_fold_as_one_does() -> None:
    names = [*load().aliases, "A.B.S. / DC-DC (12 V)", "Türsteuergerät", "the of", ""]
    assert all_tokens(names) == [(tokens(name), drop_fillers(tokens(name))) for name in names]
