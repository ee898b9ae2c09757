"""What lies on the author's desk: the open texts, and the course that each of them belongs to."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from fingerpost.editor.course_at_work import CourseAtWork, is_ours, settings_above, settings_in
from fingerpost.editor.open_texts import OpenText, OpenTexts
from fingerpost.workspace.course_folder import SETTINGS_NAMES

UNSAVED = Path("unsaved.md")


@dataclass(frozen=True)
class Place:
    """An open text with its course and its name there."""

    text: OpenText
    course: CourseAtWork
    file: str


@dataclass
class Desk:
    """courses: by the path of their mkdocs.yml; alone: pages without a course, by their address."""

    texts: OpenTexts = field(default_factory=OpenTexts)
    folders: tuple[Path, ...] = ()
    courses: dict[Path, CourseAtWork] = field(default_factory=dict)
    alone: dict[str, CourseAtWork] = field(default_factory=dict)

    def place(self, uri: str) -> Place | None:
        """Where an open text belongs; None where it is not open, or is neither page nor settings."""
        text = self.texts.by_uri.get(uri)
        if text is None or (text.path is not None and not is_ours(text.path)):
            return None
        found = None if text.path is None else self._in_course(text, text.path)
        return found or self._alone(text)

    def typed(self, uri: str) -> None:
        """Something was typed into a text."""
        place = self.place(uri)
        if place is not None and place.file == place.course.settings:
            place.course.reload(self.texts.on_disk())
        elif place is not None:
            place.course.write(place.file, place.text.lines.text)

    def stirred(self) -> None:
        """Something was opened, closed, saved or changed on the disk: folders are read anew when next asked for."""
        for path in [path for path in self.courses if not path.is_file()]:
            del self.courses[path]
        self.alone.clear()
        for course in self.courses.values():
            course.reload(self.texts.on_disk())

    def places(self) -> list[Place]:
        """All open texts that are ours."""
        return [place for uri in self.texts.by_uri if (place := self.place(uri)) is not None]

    def _in_course(self, text: OpenText, path: Path) -> Place | None:
        above = settings_above(path)
        for settings in dict.fromkeys([above, *map(settings_in, self.folders)]):
            if settings is None:
                continue
            if settings not in self.courses:
                self.courses[settings] = CourseAtWork.of_folder(settings, self.texts.on_disk())
            course = self.courses[settings]
            file = course.file_of(path)
            if file is not None:
                return Place(text, course, file)
        return None

    def _alone(self, text: OpenText) -> Place | None:
        path = text.path or UNSAVED
        if path.name in SETTINGS_NAMES:
            return None
        if text.uri not in self.alone:
            self.alone[text.uri] = CourseAtWork.of_page(path, text.lines.text)
        return Place(text, self.alone[text.uri], path.name)
