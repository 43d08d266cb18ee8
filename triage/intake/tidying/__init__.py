"""What is set right in the rows of a whole text before the first of them is read, one pass a module."""
