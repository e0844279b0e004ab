"""Files that belong to a draft and stand beside it."""

from __future__ import annotations

from pathlib import Path


def file_beside(path: str | Path) -> Path:
    """Return the file that keeps what stands in a draft: `hat.stet.toml` beside `hat.txt`."""
    draft = Path(path)
    return draft.with_name(f"{draft.stem}.stet.toml")
