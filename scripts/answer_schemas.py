"""Reads the JSON Schemas of answers (schema/json) for the scripts and tests that hold something
against them."""
import functools
import json


@functools.cache
def read(path):
    return json.loads(path.read_text(encoding="utf-8"))


def inlined(path):
    """The schema with what it refers to in the place of each reference; none refers to itself."""
    return _inlined(read(path), path)


def _inlined(node, path):
    if isinstance(node, list):
        return [_inlined(each, path) for each in node]
    if not isinstance(node, dict):
        return node
    if "$ref" not in node:
        return {name: _inlined(each, path) for name, each in node.items() if name != "$defs"}
    file, _, pointer = node["$ref"].partition("#")
    target = (path.parent / file).resolve() if file else path
    found = read(target)
    for name in pointer.split("/")[1:]:
        found = found[name]
    return _inlined(found, target)


def forms(path):
    """The forms that the answers of a command have, each a schema of its own."""
    whole = inlined(path)
    return whole.get("oneOf", [whole])


def closed(node):
    """The schema without room for members that it does not describe. As it is published it lets them
    be, since a later program may add some under the same version; what answers today adds none."""
    if isinstance(node, list):
        return [closed(each) for each in node]
    if not isinstance(node, dict):
        return node
    within = {name: closed(each) for name, each in node.items()}
    if node.get("type") == "object":
        within.setdefault("additionalProperties", False)
    return within
