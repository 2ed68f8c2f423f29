"""The filter of system calls that a unit of systemd asks for, put on this process.

It is read from the unit and from what `systemd-analyze syscall-filter` makes of its groups, so that
a daemon can be tried under it where no systemd runs. x86-64 only.
"""

import ctypes
import errno
import re
import socket
import struct
import subprocess

HEADER = "/usr/include/x86_64-linux-gnu/asm/unistd_64.h"
AUDIT_ARCH_X86_64 = 0xC000003E
LOAD, EQUAL, AND, RETURN = 0x20, 0x15, 0x54, 0x06
NUMBER, ARCH, FIRST_ARGUMENT, THIRD_ARGUMENT = 0, 4, 16, 32
ALLOW, REFUSE = 0x7FFF0000, 0x00050000
PROT_WRITE, PROT_EXEC = 2, 4
PR_SET_NO_NEW_PRIVS, PR_SET_SECCOMP, SECCOMP_MODE_FILTER = 38, 22, 2


def values(unit, name):
    """Each line of a setting, as its words."""
    return [found.split() for found in re.findall(rf"^{name}=(.*)$", unit, re.MULTILINE)]


def expand(words):
    """The system calls that groups stand for."""
    calls, waiting = set(), list(words)
    while waiting:
        word = waiting.pop()
        if not word.startswith("@"):
            calls.add(word)
            continue
        said = subprocess.run(["systemd-analyze", "syscall-filter", word], check=True, text=True,
                              stdout=subprocess.PIPE).stdout
        waiting += [line.strip() for line in said.splitlines()[1:]
                    if line.startswith("    ") and not line.strip().startswith("#")]
    return calls


def allowed_calls(unit):
    allowed = set()
    for words in values(unit, "SystemCallFilter"):
        if words[0].startswith("~"):
            allowed -= expand([words[0][1:], *words[1:]])
        else:
            allowed |= expand(words)
    return allowed


def _step(code, yes=0, no=0, value=0):
    return struct.pack("HBBI", code, yes, no, value)


def program(unit):
    """A filter for the kernel: what is not allowed fails with EPERM."""
    with open(HEADER, encoding="ascii") as header:
        numbers = {name: int(number) for name, number in
                   re.findall(r"#define __NR_(\w+) (\d+)", header.read())}
    families = [getattr(socket, family)
                for family in values(unit, "RestrictAddressFamilies")[0]]
    steps = [_step(LOAD, value=ARCH), _step(EQUAL, 1, 0, AUDIT_ARCH_X86_64),
             _step(RETURN, value=REFUSE | errno.EPERM), _step(LOAD, value=NUMBER)]

    def guard(name, inner):
        """`inner` decides about calls of that name; its last step returns."""
        steps.extend([_step(EQUAL, 0, len(inner), numbers[name]), *inner])

    guard("socket", [_step(LOAD, value=FIRST_ARGUMENT),
                     *(step for family in families
                       for step in (_step(EQUAL, 0, 1, family), _step(RETURN, value=ALLOW))),
                     _step(RETURN, value=REFUSE | errno.EAFNOSUPPORT)])
    both = PROT_WRITE | PROT_EXEC
    for name, bits in (("mmap", both), ("mprotect", PROT_EXEC)):
        guard(name, [_step(LOAD, value=THIRD_ARGUMENT), _step(AND, value=bits),
                     _step(EQUAL, 0, 1, bits), _step(RETURN, value=REFUSE | errno.EPERM),
                     _step(RETURN, value=ALLOW)])
    for name in sorted(allowed_calls(unit)):
        if name in numbers:
            steps += [_step(EQUAL, 0, 1, numbers[name]), _step(RETURN, value=ALLOW)]
    return b"".join([*steps, _step(RETURN, value=REFUSE | errno.EPERM)])


def put_on(filter_program):
    """No new privileges, and the filter, on this process and whatever it starts."""
    libc = ctypes.CDLL(None, use_errno=True)
    steps = ctypes.create_string_buffer(filter_program, len(filter_program))

    class Program(ctypes.Structure):
        _fields_ = [("length", ctypes.c_ushort), ("steps", ctypes.c_void_p)]

    whole = Program(len(filter_program) // 8, ctypes.addressof(steps))
    if libc.prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0 or \
            libc.prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, ctypes.byref(whole), 0, 0) != 0:
        raise OSError(ctypes.get_errno(), "the filter cannot be put on")
