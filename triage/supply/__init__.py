"""The supply as a measured thing: voltage traces, their segments, and what a figure means and does not mean."""
