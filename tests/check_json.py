"""Runs `ebbline start SCENE --json -` on every scene and validates what comes out.

Usage: check_json.py PROGRAM SOURCE_TREE
"""
import json
import pathlib
import subprocess
import sys

import jsonschema


def main(program, source):
    root = pathlib.Path(source)
    schema = json.loads((root / "assets/start.schema.json").read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    scenes = sorted((root / "scenes").glob("*.toml"))
    assert scenes, "no scenes"
    for scene in scenes:
        run = subprocess.run([program, "start", str(scene), "--json", "-"], capture_output=True, check=True)
        assert run.stderr == b"", run.stderr
        found = json.loads(run.stdout)  # one object and nothing else
        validator.validate(found)
        print(scene.name, found["outcome"], found["margin"])
        # The check itself can fail.
        broken = {key: value for key, value in found.items() if key != "ledger"}
        assert not validator.is_valid(broken)
        assert not validator.is_valid({**found, "outcome": "unknown"})


main(*sys.argv[1:])
