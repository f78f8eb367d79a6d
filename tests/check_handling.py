#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""What hands do with the real window: first steps, meter, enlargement, marked stretch, a scene laid under, a long drag.

check_handling.py <ebbline> <source folder>; screenshots stay in window-shots below the current folder.
"""
import os
import sys
import tempfile
import time

from check_window import SHOTS, SOURCE, Screen, Window, both, is_final, says, start_of


def place_of(frame, text):
    """Middle of the first text of a frame that has it."""
    for x, y, width, height, line in frame[3]:
        if text in line:
            return x + width / 2, y + height / 2
    raise AssertionError(f"{text!r} is not shown")


def lines_with(frame, text):
    return [line for line in frame[3] if text in line[4]]


def move(window, place):
    window.x("mousemove", "--window", window.id, str(round(place[0])), str(round(place[1])))


def click(window, place, button="1"):
    move(window, place)
    window.x("click", button)


def drag(window, start, end, button="1"):
    move(window, start)
    window.x("mousedown", button)
    for share in (0.2, 0.6, 1):
        move(window, [a + share * (b - a) for a, b in zip(start, end)])
        time.sleep(0.05)
    window.x("mouseup", button)


def take_first_steps(screen):
    with tempfile.TemporaryDirectory() as fresh:
        window = Window(screen, None, fresh)
        try:
            frame = window.await_frame(both(is_final, says("This fridge has just given up", "Cable")), "is led")
            assert not lines_with(frame, "Run length"), "one card only"
            window.shot("first")
            window.key("w", "d")  # other handles rest until the first one has done its work
            window.key("q")
            window.await_frame(both(is_final, says("It starts: the thicker cable loses less")), "it starts")
            assert not lines_with(window.frames()[-1], "drawn: 9.1 m"), "the others were not turned"
            window.key("Return")
            window.await_frame(says("Run length, one way"), "the other cards come")
        finally:
            window.close()


def hold_a_meter(window, scene):
    expected = start_of(scene)
    window.key("m")
    frame = window.await_frame(says(f"meter: Fridge plus against Fridge minus: {expected['lowest_v']:.2f} V now"),
                               "reads what arrives at the fridge")
    name = "meter: Fridge plus against Fridge minus"
    assert len(lines_with(frame, name + ": ")) == 1, "the band names it"
    assert sum(line[4] in (name, "meter") for line in frame[3]) == 1, "and the strip of the time chart"
    window.shot("meter")
    click(window, place_of(frame, "house.plus"))
    window.await_frame(says("meter: House battery plus against Fridge minus"), "a click puts the plus lead")
    click(window, place_of(frame, "fridge.plus"))
    frame = window.await_frame(says("meter: House battery plus against Fridge plus"), "and then the minus lead")
    now_v = float(lines_with(frame, "V now")[0][4].split(": ")[2].split(" V")[0])
    plus_v = sum(row["volts"] for row in expected["ledger"] if row["side"] == "out")
    assert abs(now_v - plus_v) < 0.006, (now_v, plus_v)  # shown in hundredths
    window.key("x")
    window.key("Tab")
    window.await_frame(lambda frame: not lines_with(frame, "House battery plus against Fridge plus"), "Tab moves one")
    window.key("Escape")
    window.await_frame(lambda frame: not lines_with(frame, "meter:"), "and away")


def enlarge(window):
    frame = window.await_frame(is_final, "stands")
    before = lines_with(frame, "House battery")[0]
    place = place_of(frame, "House battery")
    move(window, place)
    for _ in range(3):
        window.x("click", "4")
    frame = window.await_frame(lambda frame: lines_with(frame, "House battery")[0][3] > 1.6 * before[3], "larger")
    larger = place_of(frame, "House battery")
    assert abs(larger[0] - place[0]) < 2 and abs(larger[1] - place[1]) < 2, (larger, place)
    window.shot("larger")
    drag(window, (600, 300), (560, 280))
    window.await_frame(lambda frame: place_of(frame, "House battery")[0] < larger[0] - 20, "is moved")
    window.key("Escape")
    window.await_frame(lambda frame: lines_with(frame, "House battery")[0] == before, "all of it again")
    window.key("z", "v")
    window.await_frame(lambda frame: lines_with(frame, "House battery")[0] == before, "by keys as well")


def scrub_in_the_gap_chart(window):
    frame = window.await_frame(both(is_final, says("to spare at rest")), "stands")
    x, y = place_of(frame, "to spare at rest")
    drag(window, (x + 60, y), (x + 30, y))
    moved = window.await_frame(lambda one: one[0] != frame[0], "dragging moves the cursor")
    assert moved[0] < frame[0], "to the left is earlier"
    window.key("End")
    window.await_frame(lambda one: one[0] == frame[0], "back at the worst")


def play_round(window):
    frame = window.await_frame(both(is_final, says("At the fridge")), "stands")
    title = lines_with(frame, "At the fridge")[0]
    y = title[1] + 120
    drag(window, (title[0] + 120, y), (title[0] + 220, y), "3")
    window.key("space")
    frame = window.await_frame(says("plays round:"), "a stretch is marked and played")
    words = lines_with(frame, "plays round:")[0][4].split()
    begin_s, end_s = float(words[2]), float(words[5])  # "plays round: 0.35 s to 0.80 s"
    assert begin_s < end_s, words
    time.sleep(4)
    times = [one[0] for one in window.frames() if says("plays round:")(one)]
    assert all(begin_s - 0.01 <= at_s <= end_s + 0.01 for at_s in times[1:]), (begin_s, end_s, times)
    assert any(later < earlier for earlier, later in zip(times, times[1:])), "it comes round"
    window.key("space", "Escape", "End")


def lay_under(window):
    window.key("l")
    frame = window.await_frame(says("lay it under"), "the list")
    chosen = [line[4] for line in frame[3]].index("scenes/quay-03.toml")
    title = frame[3][chosen - 1][4]
    names = [line[4] for line in frame[3] if line[4].endswith(".toml")]
    for _ in range(names.index("scenes/quay-03.toml")):
        window.key("Down")
    window.key("b")
    frame = window.await_frame(says(title[:10]), "another scene lies under", 120)
    assert lines_with(frame, "Does not start"), "the open one is still the open one"
    window.shot("under")
    window.key("Escape")
    window.await_frame(lambda frame: not lines_with(frame, title[:10]), "and away")


def ask_why(window):
    frame = window.await_frame(is_final, "stands")
    move(window, place_of(frame, "low-voltage cut-out"))
    window.await_frame(says("to spare the battery"), "a word says why")
    window.shot("why")
    move(window, (5, 5))
    window.key("y")
    window.await_frame(says("Words", "Thousandths of an ohm"), "all of them")
    window.shot("words")
    window.key("Escape")


def times_of_frames(window, first):
    """What each frame took from then on, ms: layout, painting and display together."""
    with open(window.record, encoding="utf-8") as file:
        heads = [line.split() for line in file if line.startswith("frame ")]
    return [sum(map(float, head[4:])) for head in heads[first:]]


def drag_for_long(window, scene):
    """Ten seconds of a moved handle, sixty moves a second; what comes of it is measured, not judged by time."""
    frame = window.await_frame(is_final, "stands")
    x, y = place_of(frame, "Run length, one way")
    seconds, reach = 10, 90
    moves = []
    for i in range(60 * seconds):
        there = abs(2 * reach - (6 * i) % (4 * reach)) - reach  # to and fro
        moves += ["mousemove", "--window", window.id, str(round(x + there)), str(round(y)), "sleep", "0.0167"]
    move(window, (x + reach, y))
    first = len(window.frames())
    begin = time.time()
    window.x("mousedown", "1", *moves)
    took = time.time() - begin
    during = window.frames()[first:]
    window.x("mouseup", "1")
    released = time.time()
    frame = window.await_frame(is_final, "the final run after it")
    starts = [tuple(line[4] for line in one[3] if " V" in line[4]) for one in during]
    changes = sum(one != other for one, other in zip(starts, starts[1:]))
    longest_ms = max(times_of_frames(window, first))
    print(f"drag: longest frame {longest_ms:.0f} ms, {len(during)} pictures in {took:.1f} s, {changes / took:.1f} new starts a second, "
          f"final {time.time() - released:.2f} s after the release")
    assert changes > 3, "starts are shown while the hand moves"
    length = [line[4] for line in frame[3] if line[4].endswith(" m") and abs(line[1] - y) < 40 and abs(line[0] - x) < 80]
    expected = start_of(scene, f"twin.length_m={length[0].split()[0]}")
    assert says(f"{expected['lowest_v']:.2f} V")(frame), (length, expected["lowest_v"])
    window.key("BackSpace")


def walk_a_lesson(screen, folder):
    window = Window(screen, os.path.join(SOURCE, "scenes", "lessons", "thin-against-thick.toml"), folder)
    try:
        window.await_frame(both(is_final, says("step 1 of 4", "Will it start?")), "the first step")
        assert not lines_with(window.frames()[-1], "Does not start"), "it does not tell"
        window.key("Return", "Return", "Return")
        window.await_frame(says("Does not start: thin cable"), "revealed")
        window.key("Return")
        window.await_frame(says("No: 1.5 mm² takes about two volts"), "answered")
        for step in (2, 3):
            window.key("Next")
            window.await_frame(both(is_final, says(f"step {step} of 4", "Starts")), f"step {step}")
        window.key("Next")
        frame = window.await_frame(both(is_final, says("step 4 of 4", "Was 2.5 mm² enough?")), "the last step")
        assert not lines_with(frame, "only just"), "it does not tell either"
        window.key("Return", "Return", "Return", "Return")
        window.await_frame(says("It starts with little to spare"), "its answer")
        window.key("Next")
        time.sleep(1)
        assert says("step 4 of 4")(window.frames()[-1]), "there is no further one"
        window.shot("lesson")
    finally:
        window.close()


def main():
    os.makedirs(SHOTS, exist_ok=True)
    scene = os.path.join(SOURCE, "scenes", "quay-02.toml")
    with Screen() as screen, tempfile.TemporaryDirectory() as folder:
        take_first_steps(screen)
        walk_a_lesson(screen, folder)
        window = Window(screen, scene, folder)
        try:
            window.await_frame(both(is_final, says("Does not start")), "the first start")
            move(window, (5, 5))
            hold_a_meter(window, scene)
            enlarge(window)
            scrub_in_the_gap_chart(window)
            play_round(window)
            lay_under(window)
            ask_why(window)
            drag_for_long(window, scene)
        finally:
            window.close()
    print("the window is handled")


if __name__ == "__main__":
    sys.exit(main())
