"""The Markdown extension, the MkDocs plugin and its options."""
