"""`python -m fitwright.report.guide` writes docs/pictures/measuring/*.svg below the current folder."""

from pathlib import Path

from fitwright.report.guide.pictures import write_pictures

if __name__ == "__main__":
    write_pictures(Path.cwd())
