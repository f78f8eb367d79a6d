#!/usr/bin/python3
"""The table of words is whole: every text of the program is in it, every language has every text.

check_words.py PROGRAM SOURCE_DIR            the checks
check_words.py PROGRAM SOURCE_DIR --write    brings assets/words up to date, what is new untranslated
"""
import json
import os
import pathlib
import re
import subprocess
import sys

HEAD = ('msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=UTF-8\\n"\n'
        '"Content-Transfer-Encoding: 8bit\\n"\n"Language: {}\\n"\n')
OUTCOMES = ("starts", "trips", "stalls", "fuse opens", "not powered", "supply low",
            "thermostat open", "reversed", "wrong voltage", "not driven")
BASES = ("standard", "typical", "estimate", "measured")
MADE_OF_SEVERAL = ("drop 3 percent", "drop 10 percent")  # names of rules that code puts together
SAID_OTHERWISE = ("battery", "controller", "load")  # by whole sentences, not key by key


def run(*command):
    done = subprocess.run([str(one) for one in command], capture_output=True)
    assert done.returncode == 0, (command, done.stderr.decode())
    return done.stdout.decode()


def quoted(text):
    return json.dumps(text, ensure_ascii=False)


def unquoted(lines):
    return json.loads('"' + "".join(re.findall(r'"(.*)"', lines)) + '"')


def entries(po):
    """Text and translation, in the order of a .po file."""
    pairs = re.findall(r'^msgid ((?:".*"\n)+)msgstr ((?:".*"\n?)+)', po, re.M)
    return {unquoted(text): unquoted(said) for text, said in pairs if unquoted(text)}


def texts_of_sources(root):
    files = sorted(path for folder in ("src", "include") for path in (root / folder).rglob("*")
                   if path.suffix in (".cpp", ".h"))
    return list(entries(run("xgettext", "--c++", "--from-code=UTF-8", "--no-location", "-k",
                            "-kwords:1", "-kphrase:1", "-o", "-", *files)))


def texts_of_pages(root):
    pages = (path.read_text() for path in sorted((root / "assets").glob("*.html")))
    return [text for page in pages for text in re.findall(r"\{\{#say\}\}(.*?)\{\{/say\}\}", page)]


def rules_of(root):
    sources = (path.read_text() for path in sorted((root / "src/verdict").glob("rule_*.cpp")))
    return [name for source in sources for name in re.findall(r'\.rule = "([a-z-]*[a-z])"', source)]


def terms(program, root):
    """Kinds, conditions and the like: words of scene files that people read as well."""
    listed = json.loads(run(program, "parts", "--json", "-"))
    kinds = [one["kind"]
             for one in json.loads(run(program, "parts", "--terminals", "--json", "-"))["terminals"]]
    keys = json.loads(run(program, "parts", "--keys", "--json", "-"))["keys"]
    found = [one["conductor"] for one in listed["conductors"]]
    found += [one[key] for one in listed["joints"] for key in ("kind", "condition")]
    found += [one["keys"]["chemistry"] for one in listed["models"] if "chemistry" in one["keys"]]
    found += kinds + ["none", "sleeve", "plus", "minus", "lug"]
    found += [key["name"].removesuffix("_" + key["unit"]) for key in keys
              if key["unit"] and key["kind"] in kinds and key["kind"] not in SAID_OTHERWISE]
    found += [*rules_of(root), *OUTCOMES, *BASES, *MADE_OF_SEVERAL]
    return [name.replace("-", " ").replace("_", " ") for name in found] + \
        [key[part] for part in ("class", "meaning") for key in keys]


def all_texts(program, root):
    return list(dict.fromkeys(texts_of_sources(root) + texts_of_pages(root) + terms(program, root)))


def write(path, language, texts, said):
    blocks = [f"msgid {quoted(text)}\nmsgstr {quoted(said.get(text, ''))}\n" for text in texts]
    path.write_text("\n".join([HEAD.format(language), *blocks]))


def places(text):
    return sorted(re.findall(r"\{[^{}]*(?:\{\})?[^{}]*\}+", text))


def check_language(path, texts):
    run("msgfmt", "--check", "-o", "/dev/null", path)
    said = entries(path.read_text())
    assert list(said) == texts, set(texts) ^ set(said)
    empty = [text for text, translation in said.items() if not translation]
    assert not empty, (path.name, "not translated", empty)
    for text, translation in said.items():
        numbered = re.sub(r"\{\d", "{", translation)
        assert places(text) == places(numbered), (text, translation)
        ends = [len(one) - len(one.lstrip(" ")) for one in (text, translation)]
        assert ends[0] == ends[1], ("blanks in front", text, translation)


def check_text(program, root):
    """In German no line of letters is left as it was, but for names and ids of the scene."""
    scene = root / "scenes/quay-02.toml"
    english, german = (run(program, "start", scene, "--language", language)
                       for language in ("en", "de"))
    same = set(english.splitlines()) & set(german.splitlines())
    same = [line for line in same if re.search("[A-Za-z]{3}", line)]
    assert same == ["Galley fridge of the Marguerite, river side"], same
    assert re.search(r"10,35 V", german) and not re.search(r"\d\.\d+ (V|A|mΩ|W|s)\b", german), german
    # Citations, ids and names of the scene stay; words of the language do not.
    said = [re.sub(r"\S+-\S+", "", line) for line in german.splitlines()[1:]
            if "Quelle: " not in line]
    left = re.findall(r"\b(?:the|and|with|needless|starts?|cable|of)\b", "\n".join(said))
    assert not left, left


def check_help(program):
    """Every line of the help that speaks is in German, but what has to be typed."""
    for command in ((), ("start",), ("report",), ("deck",), ("hours",), ("check",), ("parts",), ("unit",), ("picture",)):
        english, german = (run(program, *command, "--help", "--language", language)
                           for language in ("en", "de"))
        same = set(english.splitlines()) & set(german.splitlines())
        typed = r"^ *(?:-|ebbline|\{).*"  # an option whose explanation follows below, an example
        same = [line for line in same if re.search("[a-z]{3}", line) and not re.match(typed, line)]
        assert not same, (command, same)


def complaints(program, language, *command):
    """What the program refuses a command with, in an environment that asks for no language."""
    done = subprocess.run([str(one) for one in (program, *command, "--language", language)],
                          capture_output=True, env={**os.environ, "LC_ALL": "C"})
    assert done.returncode in (2, 3), (command, done)
    return done.stderr.decode()


def spoken(line):
    """A message without what is somebody else's: quoted words, what has to be typed, places."""
    return re.sub(r"„[^“]*“|'[^']*'|\"[^\"]*\"|\[[^]]*\]|\{[^}]*\}|--?\w+|\S*/\S*", "", line)


def check_pair(command, english, german):
    assert english != german or not re.search("[A-Za-z]{3}", spoken(english)), (command, english)
    left = re.findall(r"\b(?:the|and|with|expected|unknown|is|of|wants?|has|cannot|missing|which|"
                      r"not|saw|did|you|required?|requires)\b", spoken(german))
    assert not left, (command, german, left)


def check_bad_scenes(program, root):
    """Every bad scene has its problems at the same places in German, and none in English."""
    form = re.compile(r"^(.+?:\d+:\d+): (.*)$")
    told = 0
    for scene in sorted((root / "tests/data/bad").glob("*.toml")):
        english, german = ([line for line in complaints(program, language, "check", scene)
                            .splitlines()] for language in ("en", "de"))
        assert len(english) == len(german), scene
        for one, other in zip(english, german):
            if not form.match(one):
                assert one == other, (scene, one, other)  # the line and the caret below it
                continue
            assert form.match(one)[1] == form.match(other)[1], (scene, one, other)
            check_pair(scene, form.match(one)[2], form.match(other)[2])
            told += 1
    assert told > 180, told


def check_command_lines(program, root):
    scene = root / "scenes/quay-02.toml"
    for command in ((), ("start", "--bad"), ("start", "-a", "-b"), ("start", "--expect", "x"),
                    ("start", "--drop", "99"), ("start", "--because", "x"), ("start", "--set"),
                    ("start", "--sizes", "x"), ("picture",), ("picture", "-o", "x", "--plan", "--gap"),
                    ("picture", "-o", "x", "--at", "x"), ("picture", "-o", "x", "--at", "1", "--at", "2"),
                    ("parts", "--keys=x"), ("start", root / "none.toml"), ("start", root),
                    ("parts", "--models", root / "none"), ("deck", scene, "-o", root / "none/x"),
                    ("check", scene, "--set", "x"), ("check", scene, "--set", "x=1"),
                    ("check", scene, "--set", "hose.charge_pct=1"),
                    ("check", scene, "--set", "house.charge=1"),
                    ("check", scene, "--set", "house.charge_pct=130"),
                    ("check", scene, "--set", "house.charge_pct=full"),
                    ("check", scene, "--set", "joints.kind=glue"), ("check", scene, "--with", "x"),
                    ("check", "--models", root / "tests/data/bad")):
        english, german = (complaints(program, language, *command).splitlines()
                           for language in ("en", "de"))
        assert english and len(english) == len(german), (command, english, german)
        for one, other in zip(english, german):
            if not re.match(r" *\d* \| ", one):  # a line of a file, a caret
                check_pair(command, one, other)


def check_files(program, root):
    """What programs read does not follow the reader."""
    scene = root / "scenes/quay-02.toml"
    for command in (("start", scene, "--json", "-"), ("check", scene, "--json", "-"),
                    ("start", scene, "--waveform", "-"), ("deck", scene),
                    ("parts", "--keys", "--json", "-")):
        assert run(program, *command, "--language", "en") == \
            run(program, *command, "--language", "de", "--sizes", "awg"), command


def check_sizes(program, root):
    scene = root / "scenes/quay-02.toml"
    # ASTM B258: AWG 10 has 5.26 mm2, AWG 8 8.37 mm2.
    for sizes, wanted in (("drawn", "Lay 6 mm2 instead"), ("awg", "Lay about AWG 10 instead"),
                          ("both", "Lay 6 mm2 (about AWG 10) instead"), ("mm2", "Lay 6 mm2 instead")):
        assert wanted in run(program, "start", scene, "--language", "en", "--sizes", sizes), sizes


def main(program, source, *options):
    root = pathlib.Path(source)
    words = root / "assets/words"
    texts = all_texts(program, root)
    if "--write" in options:
        write(words / "ebbline.pot", "", texts, {})
        for path in sorted(words.glob("*.po")):
            write(path, path.stem, texts, entries(path.read_text()))
        return
    assert list(entries((words / "ebbline.pot").read_text())) == texts, "run with --write"
    for path in sorted(words.glob("*.po")):
        check_language(path, texts)
    check_text(program, root)
    check_help(program)
    check_bad_scenes(program, root)
    check_command_lines(program, root)
    check_files(program, root)
    check_sizes(program, root)
    print(len(texts), "texts")


if __name__ == "__main__":
    main(*sys.argv[1:])
