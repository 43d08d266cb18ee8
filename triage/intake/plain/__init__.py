"""Text as plain characters, and how patterns and wordings are looked up in it; nothing of the trade."""
