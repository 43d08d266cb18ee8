"""Running text read clause by clause: who is spoken of, which codes, with which status, in whatever order people say
it. What a clause says is written out as a line of its own that names its module first; what can't be read as a whole
is left to those who read lines by their pieces."""
