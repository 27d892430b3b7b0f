"""Building beside the last good result and swapping only when the new one is whole."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def built_beside(target: Path) -> Iterator[Path]:
    """Give an empty folder beside `target`; when the block ends well, it takes the target's place.

    When the block fails, or the program is killed in it, the target stays as it was. What a killed
    run left behind is cleared by the next one.
    """
    target = target.absolute()
    old = target.with_name(f".{target.name}-last")
    if old.exists() and not target.exists():
        old.rename(target)
    target.parent.mkdir(parents=True, exist_ok=True)
    for leftover in target.parent.glob(f".{target.name}-new-*"):
        shutil.rmtree(leftover, ignore_errors=True)
    new = Path(tempfile.mkdtemp(prefix=f".{target.name}-new-", dir=target.parent))
    try:
        yield new
    except BaseException:
        shutil.rmtree(new, ignore_errors=True)
        raise
    new.chmod(0o755)
    shutil.rmtree(old, ignore_errors=True)
    if target.exists():
        target.rename(old)
    new.rename(target)
    shutil.rmtree(old, ignore_errors=True)
