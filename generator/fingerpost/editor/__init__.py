"""The language server: what an author sees while typing, out of the same model as the check and the pages."""
