"""What is known while a text is read from top to bottom, and the scans it is gathered into."""
