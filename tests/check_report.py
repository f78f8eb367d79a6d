"""Opens reports in a browser: plays, scrubs and prints them, and holds what is drawn against the
simulation.

Usage: check_report.py PROGRAM SOURCE_TREE
"""
import base64
import bisect
import concurrent.futures
import csv
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import time

from selenium import webdriver
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import WebDriverWait

SCENES = ("quay-01", "quay-02", "van-01")
HOSTILE = "</script><script>window.pwned=1</script><img src=x onerror='window.pwned=1'>{{x}}&amp;"
A4_POINTS = (595, 842)


def run(*command):
    ended = subprocess.run([str(word) for word in command], capture_output=True, check=False)
    assert ended.returncode == 0, (command, ended.stderr)
    return ended.stdout.decode()


def make_report(program, scene, folder):
    """The page, and the same start as JSON and as waveform from a run of its own."""
    page = folder / (scene.stem + ".html")
    wave = folder / (scene.stem + ".csv")
    run(program, "report", scene, "--date", "2031-02-03", "-o", page)
    found = json.loads(run(program, "start", scene, "--json", "-", "--waveform", wave))
    with wave.open() as file:
        rows = [[float(value) for value in row] for row in list(csv.reader(file))[1:]]
    return page, found, rows


def hostile_scene(folder):
    """A small scene whose every free text tries to become markup."""
    word = json.dumps(HOSTILE)
    scene = folder / "hostile.toml"
    scene.write_text(
        f"ebbline = 1\ntitle = {word}\nnote = {word}\n"
        f'[[part]]\nid = "house"\nkind = "battery"\nname = {word}\nnote = {word}\n'
        f'[[part]]\nid = "fridge"\nkind = "controller"\nname = {word}\nnote = {word}\n'
        f'[[run]]\nid = "twin"\nname = {word}\nnote = {word}\narea_mm2 = 4\nlength_m = 2\n'
        'from = ["house.plus", "house.minus"]\nto = ["fridge.plus", "fridge.minus"]\n'
        f'[[condition]]\nid = "odd"\nname = {word}\nset = {{ "house.charge_pct" = 90 }}\n')
    return scene


def open_browser():
    options = webdriver.ChromeOptions()
    for argument in ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
                     "--window-size=1280,800"):
        options.add_argument(argument)
    options.binary_location = "/usr/bin/chromium"
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    return webdriver.Chrome(options=options)


def value_at(rows, at_s, column):
    """On the straight line between two stored instants."""
    i = min(max(bisect.bisect_left(rows, [at_s]), 1), len(rows) - 1)
    before, after = rows[i - 1], rows[i]
    share = (at_s - before[0]) / (after[0] - before[0])
    return before[column] + min(max(share, 0), 1) * (after[column] - before[column])


class Page:
    """One report, open in the browser."""

    def __init__(self, browser, path):
        self.browser = browser
        browser.get_log("performance")
        browser.get_log("browser")
        browser.get(path.as_uri())
        self.address = path.as_uri()
        self.data = json.loads(self.read("document.getElementById('data').textContent"))

    def read(self, script):
        return self.browser.execute_script("return " + script)

    def find(self, selector):
        return self.browser.find_element(By.CSS_SELECTOR, selector)

    def click(self, name):
        self.find("#" + name).click()

    def now(self):
        return int(self.find("#scrub").get_property("value"))

    def scrub(self, moment):
        """As the browser does when the handle is dragged."""
        self.browser.execute_script(
            "const s = document.getElementById('scrub'); s.value = arguments[0];"
            "s.dispatchEvent(new Event('input', {bubbles: true}));", moment)
        assert self.now() == moment

    def texts(self, selector):
        found = self.read(f"[...document.querySelectorAll('{selector} text')]"
                          ".map(one => one.textContent)")
        return [text.replace("\u00a0", " ") for text in found]  # numbers hold on to their units

    def line_end(self, side):
        """Height at the fridge of one line of the gap chart; downwards."""
        points = self.read("document.querySelector('#live .gap g.gap-line[data-id=" + side +
                           "] polyline').getAttribute('points')")
        return float(points.split(" ")[-1].split(",")[1])

    def wait_for(self, truth, seconds=15):
        WebDriverWait(self.browser, seconds, 0.02).until(lambda _: truth())

    def has_outline(self):
        return self.read("document.querySelectorAll('#live .gap g.outline').length") > 0


def find_numbers(texts, unit):
    found = [re.fullmatch(r"(-?[\d.]+) " + unit, text.replace("\u2212", "-")) for text in texts]
    return [float(number[1]) for number in found if number]


def check_cursor(page, at_s, volts, amps, needed):
    """A cursor without room for its words leaves them out, but never where it matters most."""
    cursor = page.texts("#live .time g.cursor")
    for unit, value, bound in (("V", volts, 0.01), ("A", amps, 0.06)):
        numbers = find_numbers(cursor, unit)
        assert len(numbers) <= 1 and (numbers or not needed), cursor
        assert all(abs(number - value) <= bound for number in numbers), (at_s, cursor, value)
    assert len(find_numbers(cursor, "s")) == 1, cursor
    assert abs(find_numbers(cursor, "s")[0] - at_s) <= 0.0051, (cursor, at_s)


def check_numbers(page, rows):
    """Before, at and after the worst moment all three pictures say what was simulated."""
    worst, last = page.data["worst"], len(page.data["at_s"]) - 1
    for moment in (worst - 8, worst, (worst + last) // 2):
        page.scrub(moment)
        at_s = page.data["at_s"][moment]
        volts, amps = value_at(rows, at_s, 1), value_at(rows, at_s, 3)
        check_cursor(page, at_s, volts, amps, moment <= worst)
        gap = re.search(r"([\d.]+) V arrive", " ".join(page.texts("#live .gap")))
        assert abs(float(gap[1]) - volts) <= 0.01, (at_s, gap[0], volts)
        plan = find_numbers(page.texts("#live .plan"), "V")
        assert any(abs(number - volts) <= 0.01 for number in plan), (at_s, plan, volts)
        said = re.search(r"([\d.]+) V and ([\d.]+) A at the fridge", page.find("#moment").text)
        assert abs(float(said[1]) - volts) <= 0.01 and abs(float(said[2]) - amps) <= 0.06, said[0]


def check_crossing(page, found):
    page.scrub(page.data["worst"])
    crosses = page.line_end("minus") < page.line_end("plus")
    assert crosses == (found["headroom_v"] < 0), (crosses, found["headroom_v"])


def check_first_play(page):
    page.browser.refresh()
    assert page.now() == page.data["worst"]
    page.click("play")
    page.wait_for(lambda: page.now() != page.data["worst"])
    assert page.now() < page.data["worst"], page.now()  # from the beginning
    page.click("play")


def check_playing(page):
    worst, last = page.data["worst"], len(page.data["at_s"]) - 1
    page.browser.execute_script("document.getElementById('speed').value = '0.5'")
    page.scrub(max(0, worst - 25))  # seconds before it would halt by itself, for a machine that is busy
    page.click("play")
    page.wait_for(lambda: page.now() > worst - 25)
    page.click("play")  # pause
    page.browser.execute_script("document.getElementById('speed').value = '2'")
    held = page.now()
    assert 0 < held < worst, held
    time.sleep(0.3)
    assert page.now() == held
    page.click("play")
    page.wait_for(lambda: page.find("#play").text == "Play")
    assert page.now() == worst  # it stops there
    assert not page.has_outline()
    page.scrub(max(worst, last - 6))
    if last > worst + 1:
        page.click("play")
        page.wait_for(lambda: page.now() == last)
        assert page.has_outline()
    for button, moment in (("worst", worst), ("back", worst - 1), ("on", worst)):
        page.click(button)
        assert page.now() == moment, button


def check_keys(page):
    worst, last = page.data["worst"], len(page.data["at_s"]) - 1
    scrub = page.find("#scrub")
    drawn = lambda: page.read("document.querySelector('#live .time').innerHTML")
    for key, moment in ((Keys.HOME, 0), (Keys.ARROW_RIGHT, 1), (Keys.ARROW_LEFT, 0),
                        (Keys.END, last), ("w", worst)):
        before = drawn()
        scrub.send_keys(key)
        assert page.now() == moment, (key, page.now())
        assert drawn() != before
        assert scrub.get_attribute("aria-valuetext") == page.data["words"][moment]
    scrub.send_keys(Keys.HOME)
    scrub.send_keys(" ")
    page.wait_for(lambda: page.now() > 0)
    scrub.send_keys(" ")
    assert page.find("#play").text == "Play"


def check_sizes(page):
    """Nothing is wider than the screen, and no picture is left out."""
    for width, height in ((390, 844), (1024, 768), (1920, 1080)):
        page.browser.execute_cdp_cmd(
            "Emulation.setDeviceMetricsOverride",
            {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 500})
        page.wait_for(lambda: page.read("window.innerWidth") == width)
        assert page.read("document.documentElement.scrollWidth") <= width, width
        for picture in ("plan", "gap", "time"):
            box = page.read(f"document.querySelector('#live .{picture} svg')"
                            ".getBoundingClientRect().toJSON()")
            assert box["width"] > 0.3 * min(width, 600) and box["height"] > 100, (picture, box)
    page.browser.execute_cdp_cmd("Emulation.clearDeviceMetricsOverride", {})


def check_silence(browser, address):
    """No error, and nothing was asked of anybody."""
    errors = [entry for entry in browser.get_log("browser")
              if entry["level"] in ("SEVERE", "WARNING")]
    assert not errors, errors
    events = [json.loads(entry["message"])["message"]
              for entry in browser.get_log("performance")]
    asked = {event["params"]["request"]["url"] for event in events
             if event["method"] == "Network.requestWillBeSent"}
    assert asked == {address}, asked


def tidy(text):
    return text.replace(" mm2", " mm\u00b2").replace(" mohm", " m\u03a9")


def squeezed(text):
    return re.sub(r"\s+", "", text)


def print_page(browser, path):
    """Prints what is open; the sizes of the sheets, in points."""
    printed = browser.execute_cdp_cmd(
        "Page.printToPDF", {"preferCSSPageSize": True, "printBackground": True})
    path.write_bytes(base64.b64decode(printed["data"]))
    found = re.findall(r"Page +\d+ size: +([\d.]+) x ([\d.]+)",
                       run("pdfinfo", "-f", 1, "-l", 99, path))
    assert found
    return [(float(width), float(height)) for width, height in found]


def check_paper(page, folder, sentences):
    path = folder / "page.pdf"
    sizes = print_page(page.browser, path)
    for width, height in sizes:
        assert abs(width - A4_POINTS[0]) < 2 and abs(height - A4_POINTS[1]) < 2
    sheets = run("pdftotext", "-layout", path, "-").split("\f")[:-1]
    assert len(sheets) == len(sizes)
    for sheet in sheets:
        assert len(squeezed(sheet)) > 200, "an empty page"
    whole = squeezed(run("pdftotext", path, "-"))
    for sentence in sentences:
        assert squeezed(sentence) in whole, sentence
    assert "Worstmoment" not in whole  # no controls
    return len(sheets)


def sentences_of(page, found):
    wanted = [page.find(".outcome").text, page.find("h1").text, "2031-02-03"]
    wanted += [row["element"] for row in found["ledger"]]
    wanted += [tidy(rule["reason"]) for rule in found["rules"]]
    cautions = page.read("[...document.querySelectorAll('#care li')].map(one => one.textContent)")
    assert len(cautions) >= 6
    return wanted + cautions


def check_words(page, found):
    """What the JSON says stands on the page."""
    text = page.read("document.querySelector('main').textContent")
    rows = page.read("document.querySelectorAll('.ledger tbody tr').length")
    assert rows == len(found["ledger"])
    assert page.read("document.querySelectorAll('.rule').length") == len(found["rules"])
    assert page.read("document.querySelectorAll('.remedies li').length") == len(found["remedies"])
    for row in found["ledger"]:
        assert row["element"] in text and f"{row['volts']:.3f}" in text, row
    assert found["title"] in text


def check_scene(browser, report, folder):
    path, found, rows = report
    page = Page(browser, path)
    check_numbers(page, rows)
    check_crossing(page, found)
    check_first_play(page)
    check_playing(page)
    check_keys(page)
    check_sizes(page)
    check_words(page, found)
    sheets = check_paper(page, folder, sentences_of(page, found))
    check_silence(page.browser, page.address)
    print(path.stem, found["outcome"], path.stat().st_size // 1024, "KiB,", sheets, "sheets")


def check_hostile(browser, path):
    page = Page(browser, path)
    page.scrub(0)
    page.click("worst")
    assert page.read("typeof window.pwned") == "undefined"
    assert page.read("document.images.length") == 0
    assert page.read("document.scripts.length") == 2
    assert page.find(".about").text == HOSTILE
    texts = page.read("document.querySelector('#parts').textContent")
    assert texts.count(HOSTILE) >= 4, texts
    check_silence(page.browser, page.address)
    # The check itself can fail: the policy of the page refuses what was not written by us.
    page.browser.execute_script(
        "const s = document.createElement('script'); s.textContent = 'window.pwned = 1';"
        "document.body.append(s);")
    assert page.read("typeof window.pwned") == "undefined"
    assert any("Content Security Policy" in entry["message"]
               for entry in page.browser.get_log("browser"))


def main(program, source):
    scenes = [pathlib.Path(source) / "scenes" / (name + ".toml") for name in SCENES]
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        odd = folder / "hostile.html"
        with concurrent.futures.ThreadPoolExecutor(2) as pool:
            hostile = pool.submit(run, program, "report", hostile_scene(folder), "--with", "odd",
                                  "-o", odd)
            reports = list(pool.map(lambda scene: make_report(program, scene, folder), scenes))
            hostile.result()
        browser = open_browser()
        try:
            for report in reports:
                check_scene(browser, report, folder)
            check_hostile(browser, odd)
        finally:
            browser.quit()


if __name__ == "__main__":
    main(*sys.argv[1:])
