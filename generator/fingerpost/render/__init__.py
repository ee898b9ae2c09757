"""The model to pictures, tables, sentences and pages, as text."""
