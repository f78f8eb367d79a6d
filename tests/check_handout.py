"""Prints handouts in a browser: one sheet of paper each, with every box, nothing cut off, and what
the trainer's sheet says as the simulation has it.

Usage: check_handout.py PROGRAM SOURCE_TREE
"""
import concurrent.futures
import json
import pathlib
import re
import sys
import tempfile

from check_report import (HOSTILE, check_silence, hostile_scene, open_browser, print_page, run,
                          squeezed)

ANSWERED = ("quay-07", "van-01", "cabin-03")  # van-01 has the longest loop
SHEETS = {"a4": (842, 595), "letter": (792, 612)}  # points
LABELS = {
    "en": ("Name", "Date", "Does it start?", "It starts, with volts to spare", "It does nothing at all",
           "Where is most lost?", "My guess: at number", "By the meter: at number", "How much at each number?",
           "Battery at rest", "all numbers together", "lowest voltage at the fridge",
           "Current of the fridge at that moment", "Conductor at number",
           "What would you change, and why?", "Local codes and licensed practice come first."),
    "de": ("Name", "Datum", "Läuft es an?", "Wo geht am meisten verloren?",
           "Was wäre zu ändern, und warum?"),
}
NOT_FOR_ANSWERS = ("Name", "Date", "Datum")

# Whatever is cut off by its box, wider than the sheet, or lies over what stands beside it.
CUT_OFF = """
const cut = [];
const main = document.querySelector('main').getBoundingClientRect();
for (const one of document.querySelectorAll('main *:not(svg *)')) {
  const box = one.getBoundingClientRect();
  const inner = one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).display !== 'inline';
  const lower = one.scrollHeight > one.clientHeight + 1 && getComputedStyle(one).display !== 'inline';
  if (inner || lower || box.right > main.right + 1 || box.bottom > main.bottom + 1)
    cut.push(one.tagName + '.' + one.className + ': ' + one.textContent.slice(0, 60));
}
return cut;"""


def write_sheet(program, scene, folder, language, paper, *more):
    page = folder / f"{scene.stem}-{language}-{paper}{''.join(more)}.html"
    run(program, "handout", scene, "--language", language, "--paper", paper, "-o", page, *more)
    return page


def check_sheet(browser, page, language, paper, may_cut=False):
    """One sheet of its size; the text on it."""
    browser.get_log("performance")
    browser.get_log("browser")
    browser.get(page.as_uri())
    # As printed: the sheet fills the page to its margins.
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    cut = browser.execute_script(CUT_OFF)
    assert may_cut or not cut, (page.name, cut)
    sizes = print_page(browser, page.with_suffix(".pdf"))
    assert len(sizes) == 1, (page.name, sizes)
    assert all(abs(is_ - wanted) < 2 for is_, wanted in zip(sizes[0], SHEETS[paper])), sizes
    text = run("pdftotext", "-layout", page.with_suffix(".pdf"), "-")
    whole = squeezed(run("pdftotext", page.with_suffix(".pdf"), "-"))
    is_answer = "--answers" in page.name
    for label in LABELS[language]:
        assert (is_answer and label in NOT_FOR_ANSWERS) or squeezed(label).lower() in whole.lower(), \
            (page.name, label)
    check_silence(browser, page.as_uri())
    return text


def check_answers(browser, program, scene, page):
    found = json.loads(run(program, "start", scene, "--json", "-"))
    boxes = browser.execute_script(
        "return [...document.querySelectorAll('.all .box')].map(one => one.textContent)")
    rest, lost, fridge = (float(box) for box in boxes)
    assert abs(fridge - found["lowest_v"]) < 0.0006, (fridge, found["lowest_v"])
    assert abs(lost - sum(row["volts"] for row in found["ledger"])) < 0.001, lost
    assert abs(rest - lost - fridge) < 0.0016, boxes
    assert found["title"] in browser.title, browser.title


def check_hostile(browser, folder, program):
    scene = hostile_scene(folder)
    page = folder / "odd--answers.html"
    run(program, "handout", scene, "--with", "odd", "--answers", "-o", page)
    check_sheet(browser, page, "en", "a4", may_cut=True)
    assert browser.execute_script("return typeof window.pwned") == "undefined"
    assert browser.execute_script("return document.scripts.length + document.images.length") == 0
    assert HOSTILE in browser.title
    sheet = folder / "odd.html"
    run(program, "handout", scene, "--with", "odd", "-o", sheet)
    assert "pwned" not in sheet.read_text()


def main(program, source):
    scenes = sorted((pathlib.Path(source) / "scenes").glob("*.toml"))
    answered = [scene for scene in scenes if scene.stem in ANSWERED]
    assert len(answered) == len(ANSWERED)
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        with concurrent.futures.ThreadPoolExecutor(2) as pool:
            answers = list(pool.map(
                lambda scene: write_sheet(program, scene, folder, "en", "a4", "--answers"), answered))
        german = write_sheet(program, answered[0], folder, "de", "letter", "--answers")
        browser = open_browser()
        try:
            for scene in scenes:
                for language, paper in (("en", "a4"), ("de", "letter")):
                    page = write_sheet(program, scene, folder, language, paper)
                    text = check_sheet(browser, page, language, paper)
                    assert not re.search(r"\d[.,]\d{3} ?V|✕", text), (page.name, text)
            for scene, page in zip(answered, answers):
                check_sheet(browser, page, "en", "a4")
                check_answers(browser, program, scene, page)
            check_sheet(browser, german, "de", "letter")
            check_hostile(browser, folder, program)
        finally:
            browser.quit()
    print(2 * len(scenes), "sheets for a class,", len(answers) + 1, "for a trainer: one page each")


if __name__ == "__main__":
    main(*sys.argv[1:])
