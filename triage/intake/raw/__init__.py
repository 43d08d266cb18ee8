"""Response bytes as text: frames, groups and answers of diagnostic services."""
