"""One function a section: Study -> typst source."""
