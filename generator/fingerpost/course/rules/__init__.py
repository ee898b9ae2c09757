"""The rules a course is checked by, a file each."""
