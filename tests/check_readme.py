#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Runs the commands of README.md and compares what they print.

usage: check_readme.py EBBLINE SOURCE_DIR

A line "    $ COMMAND" is run in a copy of the sources and must print the lines below it; "[...]" stands for lines left out. A
line "    ebbline ..." is run with SCENE and DIR filled in and must end with status 0; so must the ten-line scene.
"""
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

SCENE = "scenes/cabin-02.toml"  # has a condition "night" and a run "twin"
SKIPPED = "[...]"


def blocks(text):
    """Indented blocks, without their indent."""
    for block in re.findall(r"(?:^(?:    .*)?\n)+", text, re.M):
        if block.strip():
            yield [line[4:] for line in block.strip("\n").split("\n")]


def run(command, program, folder):
    words = shlex.split(command)
    words[0] = program if words[0] in ("./start", "ebbline") else words[0]
    return subprocess.run(words, cwd=folder, capture_output=True, text=True, check=False)


def first_difference(expected, printed):
    """Where the printed lines leave the expected ones, or None."""
    at = 0
    skipping = False
    for line in expected:
        if line == SKIPPED:
            skipping = True
            continue
        while skipping and at < len(printed) and printed[at] != line:
            at += 1
        if at >= len(printed) or printed[at] != line:
            return f"expected {line!r}, printed {printed[at] if at < len(printed) else 'nothing more'!r}"
        at += 1
        skipping = False
    return None if skipping or at == len(printed) else f"printed more: {printed[at]!r}"


def sessions(block):
    """Pairs of a "$ COMMAND" and the lines below it."""
    found = []
    for line in block:
        if line.startswith("$ "):
            found.append((line[2:], []))
        elif found:
            found[-1][1].append(line)
    return found


def listed(block):
    """Commands of a list, each with its words of explanation cut off."""
    return [re.split(r"   +", line)[0] for line in block if re.match(r"(ebbline|ngspice) [^=]", line)]


def fill_in(command):
    return command.replace("SCENE", SCENE).replace("DIR", "models")


def stale_pictures(folder, source, readme):
    """Pictures of README that its commands do not draw as they lie in the sources."""
    def content(root, name):
        path = os.path.join(root, name)
        if not os.path.exists(path):
            return None
        with open(path, "rb") as file:
            return file.read()

    return [f"{name}: not what the commands draw" for name in re.findall(r"!\[.*?\]\((.*?)\)", readme)
            if content(folder, name) is None or content(folder, name) != content(source, name)]


def check(program, folder, source, readme):
    problems = []
    ran = 0
    for block in blocks(readme):
        for command, expected in sessions(block):
            ran += 1
            while expected and not expected[-1]:
                expected.pop()
            printed = run(command, program, folder).stdout.rstrip("\n").splitlines()
            difference = first_difference(expected, printed)
            if difference:
                problems.append(f"{command}: {difference}")
        for command in listed(block):
            ran += 1
            done = run(fill_in(command), program, folder)
            if done.returncode != 0:
                problems.append(f"{command}: status {done.returncode}: {done.stderr[-300:]}")
        if 'what = "cases"' in block:
            with open(os.path.join(folder, "cases.toml"), "w", encoding="utf-8") as cases:
                cases.write("\n".join(block) + "\n")
        elif block[0].startswith("ebbline = "):
            ran += 1
            with open(os.path.join(folder, "readme.toml"), "w", encoding="utf-8") as scene:
                scene.write("\n".join(block) + "\n")
            done = run("ebbline start readme.toml", program, folder)
            if done.returncode != 0:
                problems.append(f"the scene of README: status {done.returncode}: {done.stderr[-300:]}")
    problems += stale_pictures(folder, source, readme)
    if ran < 10:
        problems.append(f"only {ran} commands found: README has another form now")
    return ran, problems


def main():
    program, source = os.path.abspath(sys.argv[1]), sys.argv[2]
    with open(os.path.join(source, "README.md"), encoding="utf-8") as text:
        readme = text.read()
    with tempfile.TemporaryDirectory() as folder:
        for part in ("scenes", "models"):
            shutil.copytree(os.path.join(source, part), os.path.join(folder, part))
        os.mkdir(os.path.join(folder, "assets"))
        ran, problems = check(program, folder, source, readme)
    for problem in problems:
        print(problem)
    print(f"{ran} commands of README.md ran, {len(problems)} problems")
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main())
