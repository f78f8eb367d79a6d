"""Runs the commands that write JSON on every scene and validates what comes out.

Usage: check_json.py PROGRAM SOURCE_TREE
"""
import json
import pathlib
import subprocess
import sys

import jsonschema


def make_validator(root, name):
    schema = json.loads((root / "assets" / name).read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def run(*command):
    """What the command writes: one object and nothing else."""
    ended = subprocess.run([*command, "--json", "-"], capture_output=True, check=True)
    assert ended.stderr == b"", ended.stderr
    return json.loads(ended.stdout)


def without(found, key):
    return {name: value for name, value in found.items() if name != key}


def check_start(validator, program, scene):
    found = run(program, "start", str(scene))
    validator.validate(found)
    print(scene.name, found["outcome"], found["margin"])
    # The check itself can fail.
    assert not validator.is_valid(without(found, "ledger"))
    assert not validator.is_valid({**found, "outcome": "unknown"})


def check_survey(validator, program, scene):
    found = run(program, "check", str(scene))
    validator.validate(found)
    assert sum(island["holds_fridge"] for island in found["islands"]) == 1, scene
    terminals = [name for island in found["islands"] for name in island["terminals"]]
    assert len(terminals) == len(set(terminals)), scene
    print(scene.name, "loop" if found["loop"] else "no loop", len(found["protections"]), "fuses")
    assert not validator.is_valid(without(found, "loop"))
    assert not validator.is_valid({**found, "open_ends": [{"kind": "odd", "name": "x"}]})
    assert not validator.is_valid({**found, "more": 0})


def check_hours(validator, program, scene, *changes):
    found = run(program, "hours", str(scene), *changes)
    validator.validate(found)
    print(scene.name, round(found["fridge_ah"], 1), "Ah")
    assert not validator.is_valid(without(found, "fridge_ah"))
    assert not validator.is_valid({**found, "starts": 1.5})
    assert not validator.is_valid({**found, "more": 0})
    return found


def check_parts(validator, program):
    catalogues = run(program, "parts")
    terminals = run(program, "parts", "--terminals")
    keys = run(program, "parts", "--keys")
    for found, section in ((catalogues, "models"), (terminals, "terminals"), (keys, "keys")):
        validator.validate(found)
        assert found[section], section
        assert not validator.is_valid({section: [{}]})
    assert not validator.is_valid({})
    assert not validator.is_valid(without(catalogues, "joints"))
    assert "terminals" not in catalogues and "keys" not in terminals
    print(len(keys["keys"]), "keys of", len(terminals["terminals"]), "kinds of part")


def main(program, source):
    root = pathlib.Path(source)
    start = make_validator(root, "start.schema.json")
    survey = make_validator(root, "check.schema.json")
    scenes = sorted((root / "scenes").glob("*.toml"))
    assert scenes, "no scenes"
    for scene in scenes:
        check_survey(survey, program, scene)
        check_start(start, program, scene)
    hours = make_validator(root, "hours.schema.json")
    lasting = check_hours(hours, program, root / "scenes/quay-01.toml")
    assert lasting["starts"] > 0 and lasting["failed_starts"] == 0, lasting
    cold = check_hours(hours, program, root / "scenes/cabin-01.toml")
    assert cold["never_called"], cold
    failing = check_hours(hours, program, root / "scenes/quay-02.toml")
    assert failing["start_limits"] and failing["starts"] == 0, failing
    check_parts(make_validator(root, "parts.schema.json"), program)


main(*sys.argv[1:])
