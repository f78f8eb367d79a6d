#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""The real window on a screen of its own, worked by keys and mouse; what it shows is read from its record.

check_window.py <ebbline> <source folder>; screenshots stay in window-shots below the current folder.
"""
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time

from screen import Screen

PROGRAM, SOURCE = sys.argv[1:3]
SHOTS = os.path.join(os.getcwd(), "window-shots")


class Window:
    def __init__(self, screen, scene, folder, language="en"):
        self.record = os.path.join(folder, "record.txt")
        if os.path.exists(self.record):
            os.unlink(self.record)
        self.environment = {**os.environ, "DISPLAY": screen.display, "LC_ALL": "C.UTF-8", "XDG_STATE_HOME": folder}
        others = self.find_windows()
        self.process = subprocess.Popen(
            [PROGRAM, "--language", language, "window", *([scene] if scene else []), "--record", self.record],
            env=self.environment, stderr=subprocess.DEVNULL)
        self.id = self.await_window(others)
        self.await_frame(lambda _: True, "the first frame")  # until then it is still placing itself
        self.x("windowmove", self.id, "0", "0")
        self.focus()

    def focus(self):
        self.x("windowfocus", self.id)

    def x(self, *arguments):
        return subprocess.run(["xdotool", *arguments], env=self.environment, capture_output=True, text=True,
                              timeout=60).stdout

    def find_windows(self):
        return set(self.x("search", "--name", "^Ebbline$").split())

    def await_window(self, others):
        for _ in range(300):
            found = self.find_windows() - others
            if found:
                return found.pop()
            time.sleep(0.1)
        raise AssertionError("no window within 30 s")

    def frames(self):
        """All that was shown: (scene time, accuracy, 'now' or 'old', texts with their places)."""
        frames = []
        if not os.path.exists(self.record):
            return frames
        with open(self.record, encoding="utf-8") as file:
            for line in file.read().splitlines():
                if line.startswith("frame "):
                    _, at_s, accuracy, age, *_ = line.split(" ")
                    frames.append((float(at_s), accuracy, age, []))
                elif frames:
                    x, y, width, height, text = line.split(" ", 4)
                    frames[-1][3].append((float(x), float(y), float(width), float(height),
                                          text.replace("\u00a0", " ").replace("\u202f", " ")))
        return frames

    def await_frame(self, wanted, what, seconds=60):
        """The newest frame once it is as wanted."""
        until = time.time() + seconds
        while time.time() < until:
            frames = self.frames()
            if frames and wanted(frames[-1]):
                return frames[-1]
            time.sleep(0.05)
        raise AssertionError(f"{what}: not within {seconds} s; last: {self.frames()[-1:]}")

    def key(self, *keys):
        for key in keys:
            self.x("key", key)
            time.sleep(0.05)

    def shot(self, name):
        path = os.path.join(SHOTS, name + ".xwd")
        subprocess.run(["xwd", "-id", self.id, "-silent", "-out", path], env=self.environment, check=False)

    def kill_workers(self):
        workers = subprocess.run(["pgrep", "-P", str(self.process.pid)], capture_output=True, text=True,
                                 check=False).stdout.split()
        for worker in workers:
            os.kill(int(worker), signal.SIGKILL)
        return workers

    def close(self):
        self.process.terminate()
        self.process.wait()


def says(*texts):
    """Whether every text stands in some line of a frame."""
    return lambda frame: all(any(text in line[4] for line in frame[3]) for text in texts)


def is_final(frame):
    return frame[1] == "final" and frame[2] == "now"


def both(*conditions):
    return lambda frame: all(condition(frame) for condition in conditions)


def start_of(scene, *changes):
    """What the command line says of the same change."""
    import json
    sets = [word for change in changes for word in ("--set", change)]
    out = subprocess.run([PROGRAM, "start", scene, *sets, "--json", "-"], capture_output=True, text=True, check=True)
    return json.loads(out.stdout)


def play(window, scene):
    frame = window.await_frame(both(is_final, says("Does not start")), "the first start")
    expected = start_of(scene)
    assert says(f"{expected['lowest_v']:.2f} V")(frame), "the number at the cursor is the start's"
    window.shot("opened")
    window.key("Home")
    window.await_frame(lambda frame: frame[0] < 0, "to the beginning")
    window.key("space")
    frame = window.await_frame(lambda frame: abs(frame[0] - expected["lowest_at_s"]) < 1e-6, "halts at the worst", 30)
    time.sleep(0.5)
    assert window.frames()[-1][0] == frame[0], "it stands there"
    assert says("moment that says most")(window.frames()[-1])
    window.shot("worst")
    window.key("space")
    window.await_frame(lambda frame: frame[0] > expected["lowest_at_s"] + 0.3, "goes on", 30)
    assert any(line[4] == "worst" for one in window.frames() for line in one[3]), "it leaves its outline"
    window.key("Left", "Left")


def scrub(window):
    before = window.await_frame(is_final, "stands")
    window.x("mousemove", "900", "560", "mousedown", "1")
    window.x("mousemove", "960", "565")
    window.x("mousemove", "1000", "565")
    frame = window.await_frame(lambda frame: frame[0] != before[0], "follows the mouse")
    window.x("mouseup", "1")
    window.x("mousemove", "1100", "565")
    time.sleep(0.4)
    at_s = window.frames()[-1][0]
    # The same moment stands in the time chart as the cursor's and as text.
    assert says(f"{at_s:.2f} s")(window.frames()[-1]), at_s
    window.x("mousemove", "5", "5")


def ask_what_if(window, scene):
    window.key("q", "q")
    frame = window.await_frame(both(is_final, says("Starts", "4 mm²", "drawn: 1.5 mm²", "before")), "thicker cable starts")
    expected = start_of(scene, "twin.area_mm2=4")
    assert expected["outcome"] == "starts"
    assert says(f"{expected['headroom_v']:.2f} V to spare")(frame), expected["headroom_v"]
    drafts = [one for one in window.frames() if one[1] == "draft"]
    assert drafts, "a draft came first"
    window.shot("thicker")
    window.key("BackSpace")
    window.await_frame(both(is_final, says("Does not start")), "as drawn again")
    window.x("mousemove", "400", "770", "click", "1")  # the right half of the card of the cable
    window.await_frame(both(is_final, says("2.5 mm²", "drawn: 1.5 mm²")), "a click turns it too")
    window.key("BackSpace")
    window.await_frame(both(is_final, says("Does not start")), "as drawn again")


def teach(window):
    window.key("c")
    frame = window.await_frame(says("What will this fridge do"), "hides")
    for line in frame[3]:
        assert not re.search(r"Marguerite|tart| V$|los[est]|gave up", line[4]), line
    window.key("1", "4")
    window.await_frame(says("hands: 14"), "counts hands")
    window.shot("class")
    window.key("Return")
    window.await_frame(says("It does not start."), "whether")
    window.key("Return")
    window.await_frame(says("Look at 1.5 mm² twin"), "where")
    window.key("Return")
    window.await_frame(says("Does not start: thin cable", "loses"), "how much")


def lose_workers(window):
    """While nothing is wanted of them, and while they are at it."""
    window.await_frame(is_final, "stands")
    assert window.kill_workers(), "there are workers to kill"
    window.key("w")
    window.await_frame(both(is_final, says("9.5 m", "drawn: 9.1 m")), "another start by new workers")
    killed = 0
    for key in ("w", "w", "s", "w", "a", "w"):
        window.x("key", key)
        until = time.time() + 10
        while is_final(window.frames()[-1]) and time.time() < until:
            time.sleep(0.005)
        killed += len(window.kill_workers())
    assert killed, "some were killed at work"
    window.await_frame(both(is_final, says("11 m", "drawn: 9.1 m")), "a final start in spite of it")
    window.key("BackSpace")
    window.await_frame(both(is_final, says("Does not start", "9.1 m")), "as drawn again")


def share_a_file(screen, scene):
    """Two windows on one file: each is worked alone, both see what is written to it."""
    with tempfile.TemporaryDirectory() as one, tempfile.TemporaryDirectory() as other:
        path = os.path.join(one, "boat.toml")
        shutil.copy(scene, path)
        windows = []
        try:
            for folder in (one, other):
                windows.append(Window(screen, path, folder))
            for window in windows:
                window.await_frame(both(is_final, says("Does not start")), "each has its start")
            for window in windows:
                window.focus()
                window.key("q")
                window.await_frame(both(is_final, says("drawn: 1.5 mm²")), "each is turned alone")
            windows[0].focus()
            windows[0].key("BackSpace")
            windows[0].await_frame(lambda frame: not says("drawn: 1.5 mm²")(frame), "put back")
            assert says("drawn: 1.5 mm²")(windows[1].frames()[-1]), "the other one stays turned"
            with open(path, encoding="utf-8") as file:
                text = file.read()
            assert text.count("area_mm2 = 1.5") == 1
            with open(path, "w", encoding="utf-8") as file:
                file.write(text.replace("area_mm2 = 1.5", "area_mm2 = 6"))
            for window in windows:
                window.await_frame(both(is_final, says("Starts", "6 mm²")), "both see what was written")
        finally:
            for window in windows:
                window.close()


def look_around(window):
    window.key("l")
    window.await_frame(says("Open", "quay-01.toml"), "the list of files")
    window.shot("list")
    window.key("Escape")
    window.key("question")
    window.await_frame(says("cable thicker, thinner"), "help")
    window.shot("help")
    window.key("Escape")
    window.key("o")
    window.await_frame(lambda frame: len(frame[3]) < 45, "one picture for a room")
    window.shot("room")
    window.key("o", "n")
    window.await_frame(says("Where the"), "the page again")
    window.shot("dark")
    window.key("n")


def without_display(folder):
    environment = {key: value for key, value in os.environ.items() if key != "DISPLAY"}
    run = subprocess.run([PROGRAM, "window"], env=environment, capture_output=True, text=True, timeout=60, check=False)
    assert run.returncode == 2 and run.stderr.count("\n") == 1 and "no display" in run.stderr, run


def main():
    shutil.rmtree(SHOTS, ignore_errors=True)
    os.makedirs(SHOTS)
    scene = os.path.join(SOURCE, "scenes", "quay-02.toml")
    with Screen() as screen, tempfile.TemporaryDirectory() as folder:
        window = Window(screen, scene, folder)
        try:
            play(window, scene)
            scrub(window)
            ask_what_if(window, scene)
            lose_workers(window)
            teach(window)
            look_around(window)
        finally:
            window.close()
        german = Window(screen, scene, folder, "de")
        try:
            german.await_frame(both(is_final, says("Läuft nicht an")), "in German")
        finally:
            german.close()
        share_a_file(screen, scene)
        without_display(folder)
    print("the window plays, answers and hides")


if __name__ == "__main__":
    main()
