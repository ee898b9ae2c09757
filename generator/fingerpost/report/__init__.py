"""Findings as text, JSON and other forms."""
