"""The model to other formats, a file each."""
