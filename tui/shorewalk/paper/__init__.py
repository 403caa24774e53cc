"""What is written down for others: blocks of text, and how they become Markdown or a page to print."""
