"""Ask before every file call of a process: the kernel holds the process still until it is told how to go on.

Nothing of the process is patched: what is held are the calls to the system themselves, whichever library makes
them. Linux on x86-64 only. Sources: seccomp(2), seccomp_unotify(2), linux/seccomp.h, linux/filter.h,
asm/unistd_64.h (read; numbers above 450 from memory).
"""

from __future__ import annotations

import ctypes
import fcntl
import os
import select
import signal
import socket
import struct
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from enum import Enum
from pathlib import Path

# Number of each call, and what its arguments are: p a path, d a folder that the next path starts from, f an open
# file, - something else; nothing where the call opens a way of its own to the files.
_CALLS = {
    "read": (0, "f"), "write": (1, "f"), "open": (2, "p"), "stat": (4, "p"), "lstat": (6, "p"),
    "pread64": (17, "f"), "pwrite64": (18, "f"), "readv": (19, "f"), "writev": (20, "f"), "access": (21, "p"),
    "sendfile": (40, "f"), "flock": (73, "f"), "fsync": (74, "f"), "fdatasync": (75, "f"),
    "truncate": (76, "p"), "ftruncate": (77, "f"), "rename": (82, "pp"), "mkdir": (83, "p"),
    "rmdir": (84, "p"), "creat": (85, "p"), "link": (86, "pp"), "unlink": (87, "p"), "symlink": (88, "-p"),
    "readlink": (89, "p"), "chmod": (90, "p"), "fchmod": (91, "f"), "chown": (92, "p"), "fchown": (93, "f"),
    "lchown": (94, "p"), "utime": (132, "p"), "mknod": (133, "p"), "statfs": (137, "p"), "setxattr": (188, "p"),
    "lsetxattr": (189, "p"), "fsetxattr": (190, "f"), "removexattr": (197, "p"), "lremovexattr": (198, "p"),
    "fremovexattr": (199, "f"), "getdents64": (217, "f"), "utimes": (235, "p"), "openat": (257, "dp"),
    "mkdirat": (258, "dp"), "mknodat": (259, "dp"), "fchownat": (260, "dp"), "futimesat": (261, "dp"),
    "newfstatat": (262, "dp"), "unlinkat": (263, "dp"), "renameat": (264, "dpdp"), "linkat": (265, "dpdp"),
    "symlinkat": (266, "-dp"), "readlinkat": (267, "dp"), "fchmodat": (268, "dp"), "faccessat": (269, "dp"),
    "splice": (275, "--f"), "sync_file_range": (277, "f"), "utimensat": (280, "dp"), "fallocate": (285, "f"),
    "preadv": (295, "f"), "pwritev": (296, "f"), "syncfs": (306, "f"), "renameat2": (316, "dpdp"),
    "copy_file_range": (326, "--f"), "preadv2": (327, "f"), "pwritev2": (328, "f"), "statx": (332, "dp"),
    "io_setup": (206, ""),
    "open_by_handle_at": (304, ""),
    "io_uring_setup": (425, ""), "openat2": (437, "dp"), "faccessat2": (439, "dp"), "fchmodat2": (452, "dp"),
    "setxattrat": (463, "dp"), "removexattrat": (466, "dp"),
}  # fmt: skip
_NAMES = {number: name for name, (number, _) in _CALLS.items()}
_ARCH = 0xC000003E
_SECCOMP, _SET_FILTER, _NEW_LISTENER = 317, 1, 8
_NO_NEW_PRIVS = 38
_LOAD, _IF_EQUAL, _RETURN = 0x20, 0x15, 0x06
_ALLOW, _ASK = 0x7FFF0000, 0x7FC00000
_RECEIVE, _SEND, _GO_ON = 0xC0502100, 0xC0182101, 1
_QUESTION, _ANSWER = struct.Struct("<QIIiIQ6Q"), struct.Struct("<QqiI")
_HERE, _REMOVE_FOLDER, _EXCHANGE = -100, 0x200, 2
_PATIENCE_MS = 60_000
_MOST_SECONDS = 120


@dataclass(frozen=True, slots=True)
class FileCall:
    """One call that a process is about to make: its name, the places it names, and whether it may change them."""

    name: str
    places: tuple[str, ...]
    to_write: bool = False


class Done(Enum):
    """An answer that is no error: let the call be made, or tell the process that it was."""

    MADE = "made"
    PRETENDED = "pretended"


Answer = Done | int | signal.Signals
"""How to go on: see ``Done``; a signal to send first; or, as a plain number, the error that the call gives."""


class _Program(ctypes.Structure):
    _fields_ = (("length", ctypes.c_ushort), ("filter", ctypes.c_void_p))


def be_watched(channel: socket.socket) -> None:
    """Have each file call of this process held from now on, and send the listener through the channel."""
    steps = [(_LOAD, 0, 0, 4), (_IF_EQUAL, 1, 0, _ARCH), (_RETURN, 0, 0, _ALLOW), (_LOAD, 0, 0, 0)]
    for left, number in zip(range(len(_NAMES), 0, -1), _NAMES, strict=True):
        steps.append((_IF_EQUAL, left, 0, number))
    steps += [(_RETURN, 0, 0, _ALLOW), (_RETURN, 0, 0, _ASK)]
    code = ctypes.create_string_buffer(b"".join(struct.pack("<HBBI", *step) for step in steps))
    program = _Program(len(steps), ctypes.addressof(code))
    system = ctypes.CDLL(None, use_errno=True)
    system.prctl(_NO_NEW_PRIVS, 1, 0, 0, 0)
    listener = system.syscall(_SECCOMP, _SET_FILTER, _NEW_LISTENER, ctypes.byref(program))
    if listener < 0:
        raise OSError(ctypes.get_errno(), "no listener")
    socket.send_fds(channel, [b"l"], [listener])
    os.close(listener)


def watch(process: int, channel: socket.socket, answer: Callable[[FileCall], Answer]) -> int:
    """Answer for each file call of a child process until it ends.

    Arguments: ``process``, a child that called ``be_watched`` with the other end of ``channel``; ``answer``,
    asked before each call; it may also end the process by its number. Returns the exit code of the child,
    negative for a signal. Raises ``TimeoutError`` when the child does nothing for a minute, unless it only waits for
    its turn on a busy machine.
    """
    _, handles, _, _ = socket.recv_fds(channel, 1, 1)
    if not handles:
        os.waitpid(process, 0)
        raise RuntimeError("the child ended before it could be watched")
    listener = handles[0]
    poll = select.poll()
    poll.register(listener, select.POLLIN)
    memory = os.open(f"/proc/{process}/mem", os.O_RDONLY)
    try:
        while not (happened := dict(poll.poll(_PATIENCE_MS)).get(listener, 0)) & select.POLLHUP:
            if not happened and _is_busy(process):
                continue
            if not happened:
                os.kill(process, signal.SIGKILL)
                raise TimeoutError("the child makes no call any more")
            with suppress(FileNotFoundError):  # the child ended, or a signal made it drop the call
                _answer_one(listener, memory, answer)
    finally:
        os.close(memory)
        os.close(listener)
        status = os.waitpid(process, 0)[1]
    return os.waitstatus_to_exitcode(status)


def _is_busy(process: int) -> bool:
    """Tell whether a process has work before it, and not more than a publish can need."""
    state, *fields = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
    return state in ("R", "D") and int(fields[10]) + int(fields[11]) < _MOST_SECONDS * os.sysconf(
        "SC_CLK_TCK"
    )


def _answer_one(listener: int, memory: int, answer: Callable[[FileCall], Answer]) -> None:
    question = bytearray(_QUESTION.size)
    fcntl.ioctl(listener, _RECEIVE, question)
    number, process, _, call, _, _, *arguments = _QUESTION.unpack(question)
    told = answer(_described(_NAMES[call], arguments, process, memory))
    if isinstance(told, signal.Signals):
        os.kill(process, told)
    if told is signal.SIGKILL:
        return  # with an answer the call might still be made
    go_on = told is Done.MADE or isinstance(told, signal.Signals)
    error = -told if isinstance(told, int) and not go_on else 0
    fcntl.ioctl(listener, _SEND, _ANSWER.pack(number, 0, error, _GO_ON if go_on else 0))


def _described(name: str, arguments: list[int], process: int, memory: int) -> FileCall:
    places: list[str] = []
    base = "cwd"
    for what, argument in zip(_CALLS[name][1], arguments, strict=False):
        if what == "d":
            base = _folder(argument)
        elif what == "f":
            places.append(_open_file(process, f"fd/{argument & 0xFFFFFFFF}"))
        elif what == "p":
            path = _text(memory, argument)
            start = "" if path.startswith("/") else _open_file(process, base)
            places.append(os.path.normpath(os.path.join(start, path)))  # noqa: PTH118 - a Path would be slow
            base = "cwd"
    return FileCall(_plain_name(name, arguments), tuple(places), _to_write(name, arguments))


def _folder(argument: int) -> str:
    number = ctypes.c_int(argument & 0xFFFFFFFF).value
    return "cwd" if number == _HERE else f"fd/{number}"


def _open_file(process: int, what: str) -> str:
    try:
        place = os.readlink(f"/proc/{process}/{what}")  # noqa: PTH115 - a Path would be slow
    except FileNotFoundError:
        return "not open"
    return place.removesuffix(" (deleted)")


def _text(memory: int, address: int) -> str:
    found = b""
    while b"\0" not in found:
        start = address + len(found)
        found += os.pread(memory, 4096 - start % 4096, start)
    return os.fsdecode(found.partition(b"\0")[0])


def _plain_name(name: str, arguments: list[int]) -> str:
    """One name for the calls that do the same."""
    if name == "unlinkat" and arguments[2] & _REMOVE_FOLDER:
        return "rmdir"
    if name == "renameat2" and arguments[4] & _EXCHANGE:
        return "exchange"
    same = {
        "unlinkat": "unlink",
        "mkdirat": "mkdir",
        "openat": "open",
        "renameat": "rename",
        "renameat2": "rename",
    }
    return same.get(name, "stat" if name in {"lstat", "newfstatat", "statx"} else name)


def _to_write(name: str, arguments: list[int]) -> bool:
    flags = {"open": 1, "openat": 2}.get(name)
    if flags is None:
        return False
    return bool(arguments[flags] & (os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC))
