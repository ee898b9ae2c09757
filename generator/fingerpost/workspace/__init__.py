"""All reading of files."""
