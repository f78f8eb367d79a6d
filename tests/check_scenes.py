"""Validates every scene against the schema for editors, and that bad ones do not pass.

Usage: check_scenes.py SOURCE_TREE
"""
import json
import pathlib
import sys
import tomllib

import jsonschema

# Bad in a way that no schema can see: what is named is not there, or is named twice.
BEYOND_A_SCHEMA = {"devices.toml", "format-not-first.toml", "no-controller.toml",
                   "two-controllers.toml", "unknown-subject.toml"}


def main(source):
    root = pathlib.Path(source)
    schema = json.loads((root / "assets" / "scene.schema.json").read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    scenes = sorted((root / "scenes").glob("*.toml"))
    assert scenes, "no scenes"
    for scene in scenes:
        validator.validate(tomllib.loads(scene.read_text()))
    refused = 0
    for scene in sorted((root / "tests" / "data" / "bad").glob("*.toml")):
        try:
            text = tomllib.loads(scene.read_bytes().decode())
        except (tomllib.TOMLDecodeError, UnicodeDecodeError):
            continue
        valid = validator.is_valid(text)
        print(scene.name, "passes" if valid else "is refused")
        assert not valid or scene.name in BEYOND_A_SCHEMA, scene
        refused += not valid
    assert refused > 5


main(*sys.argv[1:])
