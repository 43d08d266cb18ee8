"""Names of modules and of columns."""
