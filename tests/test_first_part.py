"""docs/first_part.md shows what a real run says: each line that it shows must come out of one."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

PAGE = Path(__file__).parents[1] / "docs" / "first_part.md"


def said(folder: Path, *arguments: str) -> str:
    """What the command answers, on either stream."""
    done = subprocess.run(
        [sys.executable, "-m", "fitwright", *arguments],
        cwd=folder,
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    return f"$ fitwright {' '.join(arguments)}\n{done.stdout}{done.stderr}"


def spoilt(folder: Path, before: str, after: str) -> str:
    """What a build answers once the file is changed so; the file is put back."""
    file = folder / "my_reducer.yaml"
    text = file.read_text(encoding="utf-8")
    assert before in text
    file.write_text(text.replace(before, after), encoding="utf-8")
    answer = said(folder, "build", "my_reducer.yaml")
    file.write_text(text, encoding="utf-8")
    return answer


def shown(ending: str) -> list[str]:
    """The lines of the page's blocks that are marked so."""
    blocks = re.findall(r"^```(\w*)\n(.*?)^```", PAGE.read_text(encoding="utf-8"), re.MULTILINE | re.DOTALL)
    return [line for kind, block in blocks if kind == ending for line in block.splitlines() if line.strip()]


@pytest.mark.slow
def test_the_first_ten_minutes_show_what_a_run_says(tmp_path: Path) -> None:
    answers = said(tmp_path, "new", "reducer", "-o", "my_reducer.yaml") + said(tmp_path, "build", "my_reducer.yaml")
    answers += (tmp_path / "outputs" / "my_reducer" / "report.txt").read_text(encoding="utf-8")
    answers += spoilt(tmp_path, "    over: [", "    overr: [")
    answers += spoilt(tmp_path, "# length: auto  ", "length: 60      ")
    stale = [line for line in shown("") if line not in answers.splitlines()]
    assert not stale, "run it afresh and paste these anew:\n" + "\n".join(stale)
    template = [" ".join(line.split()) for line in (tmp_path / "my_reducer.yaml").read_text().splitlines()]
    assert not [line for line in shown("yaml") if " ".join(line.split()) not in template]
