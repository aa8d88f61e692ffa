"""The fault loop over ``publish``, in its short form, and that it would see what it looks for."""

from __future__ import annotations

import errno
import os
import re
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from fault_loop import FAULTS
from fault_points import Counted, Point, few, few_of_each, not_written_through, unknown
from kernel_watch import FileCall
from sample_manual import ROOT

AROUND = Path("/place")
WORK = "/place/.site.wiring-manual"
NEW = f"{WORK}/new"
MOST = 400


def file_call(name: str, *places: str) -> FileCall:
    return FileCall(name.removesuffix("+"), places, name.endswith("+"))


A_PUBLISH = [
    file_call("mkdir", NEW),
    file_call("open+", f"{NEW}/a.html"),
    file_call("write", f"{NEW}/a.html"),
    file_call("fsync", f"{NEW}/a.html"),
    file_call("fsync", NEW),
    file_call("exchange", NEW, "/place/site"),
    file_call("fsync", "/place"),
    file_call("unlink", f"{NEW}/a.html"),
    file_call("rmdir", NEW),
]


@pytest.mark.faults
@pytest.mark.parametrize("faults", [("ENOSPC", "EIO"), ("EACCES", "SIGKILL", "SIGINT", "SIGTERM")])
def test_a_publish_struck_at_any_call_leaves_the_old_or_the_new_site(faults: tuple[str, ...]) -> None:
    command = [
        sys.executable,
        Path(__file__).with_name("fault_loop.py"),
        "--few",
        "--faults",
        ",".join(faults),
    ]
    done = subprocess.run(
        command,
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    assert (done.returncode, done.stderr) == (0, ""), done.stdout
    told = re.findall(r"^(\w+): (\d+) times the (old|new) site", done.stdout, re.MULTILINE)
    assert {(fault, site) for fault, _, site in told} == {
        (f, site) for f in faults for site in ("old", "new")
    }
    assert 150 < sum(int(count) for _, count, _ in told) <= MOST // 2


def test_each_fault_is_what_the_system_calls_it() -> None:
    for name, fault in FAULTS.items():
        assert fault == (getattr(signal, name) if name.startswith("SIG") else getattr(errno, name))


def test_calls_are_told_apart_by_where_they_are() -> None:
    counted = Counted(AROUND, "site")
    points = [counted.point(call) for call in (file_call("open", "/elsewhere"), *A_PUBLISH)]
    assert points[0] is None
    assert [str(point) for point in points[1:]] == [
        "mkdir no. 1 (staging)",
        "open to write no. 1 (staging)",
        "write no. 1 (staging)",
        "fsync no. 1 (staging)",
        "fsync no. 2 (staging)",
        "exchange no. 1 (outside)",
        "fsync no. 1 (removal)",
        "unlink no. 1 (removal)",
        "rmdir no. 1 (removal)",
    ]


def test_a_call_of_a_kind_that_is_not_known_is_named() -> None:
    counted = Counted(AROUND, "site")
    strange = (file_call("chmod", "/place/site"), file_call("io_uring_setup"), file_call("link", "/x", "/y"))
    points = [counted.point(call) for call in (*A_PUBLISH, *strange)]
    assert unknown(point for point in points if point is not None) == {"chmod", "io_uring_setup"}


def test_the_first_the_last_and_ten_between() -> None:
    points = [Point("staging", kind, number) for kind in ("write", "mkdir") for number in range(1, 101)]
    assert [point.number for point in few(points[:100])] == [1, 10, 19, 28, 37, 46, 55, 64, 73, 82, 91, 100]
    assert few(points[:3]) == points[:3]
    assert few([]) == []
    assert few_of_each(points) == few(points[:100]) + few(points[100:])


@pytest.mark.parametrize(
    ("left_out", "place"), [(3, f"{NEW}/a.html"), (4, NEW), (6, "/place")], ids=["file", "folder", "exchange"]
)
def test_what_is_not_written_through_is_named(left_out: int, place: str) -> None:
    assert not_written_through(A_PUBLISH, AROUND, "site") == set()
    cut = A_PUBLISH[:left_out] + A_PUBLISH[left_out + 1 :]
    assert not_written_through(cut, AROUND, "site") == {place}
