"""Write one file that is not there yet, whole or not at all."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

from builder.publish.exchange import parents_made


def write_new_file(path: Path, content: bytes) -> None:
    """Write a file and the folders above it that are missing; never over another file.

    Arguments: ``path``; ``content``. Returns nothing. Raises ``FileExistsError`` when there is one already, or
    another ``OSError``; nothing of it is then left. Source: common practice.
    """
    with parents_made(path), path.open("xb") as file:
        try:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        except BaseException:
            with suppress(OSError):
                path.unlink()
            raise
