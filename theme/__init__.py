"""The published course: templates, styles and scripts."""
