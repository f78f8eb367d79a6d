#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""A screen for programs that need one: Debian's xvfb.

screen.py <command>... runs the command on a screen of its own and ends as it does.
"""
import os
import subprocess
import sys


class Screen:
    """An X server without a screen, on a number that is free."""

    def __enter__(self):
        read, write = os.pipe()
        self.server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(write), "-screen", "0", "1600x1000x24", "-nolisten", "tcp", "-noreset"],
            pass_fds=[write], stderr=subprocess.DEVNULL)
        os.close(write)
        with os.fdopen(read) as number:
            self.display = ":" + number.readline().strip()
        return self

    def __exit__(self, *_):
        self.server.terminate()
        self.server.wait()


def main():
    with Screen() as screen:
        return subprocess.run(sys.argv[1:], env={**os.environ, "DISPLAY": screen.display}, check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
