#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Quoted includes go only to the left: core <- store <- meter <- library <- report <- gui <- main.c.

The build already keeps a layer from finding the libraries of a later one; all headers share one include folder, though,
so that a header of ours could still be reached from the wrong side.  This check closes that.
"""
import pathlib
import re
import sys

import tap

LAYERS = ["core", "store", "meter", "library", "report", "gui"]
# What each program may reach, by file name.
PROGRAMS = {"main.c": len(LAYERS), "batch.c": LAYERS.index("report") + 1}
# Headers the build makes, and the layer that may use them.
GENERATED = {"bond-data-resource.h": "store", "bond-ui-resource.h": "gui"}
QUOTED = re.compile(r'^\s*#\s*include\s*"([^"]+)"', re.MULTILINE)
ANGLED = re.compile(r"^\s*#\s*include\s*<((?:gtk|gdk|gsk|cairo|pango)[^>]*)>", re.MULTILINE)

top = pathlib.Path(sys.argv[1]) / "src"
sources = sorted(path for path in top.rglob("*") if path.suffix in (".c", ".h"))


def reach(path):
    """How many layers, from the left, the file may include."""
    parts = path.relative_to(top).parts
    if len(parts) == 1:
        return PROGRAMS.get(parts[0], 0)
    return LAYERS.index(parts[0]) + 1 if parts[0] in LAYERS else 0


def wrong_direction():
    findings = []
    for path in sources:
        for target in QUOTED.findall(path.read_text(encoding="utf-8")):
            layer = GENERATED.get(target, target.split("/")[0])
            if layer not in LAYERS or LAYERS.index(layer) >= reach(path):
                findings.append(f'{path.relative_to(top)} includes "{target}"')
    return findings


def not_there():
    return [
        f'{path.relative_to(top)} includes "{target}", which is not in src'
        for path in sources
        for target in QUOTED.findall(path.read_text(encoding="utf-8"))
        if target not in GENERATED and not (top / target).is_file()
    ]


def drawing_below_report():
    floor = LAYERS.index("report") + 1
    return [
        f"{path.relative_to(top)} includes <{target}>"
        for path in sources
        if len(path.relative_to(top).parts) > 1 and reach(path) < floor
        for target in ANGLED.findall(path.read_text(encoding="utf-8"))
    ]


def some_sources():
    return [] if len(sources) > 20 else [f"only {len(sources)} sources found: is {top} the right folder?"]


tap.run(
    [
        ("the sources are there", some_sources),
        ("layers include only to their left", wrong_direction),
        ("every quoted include names a file from src", not_there),
        ("no drawing or toolkit header below report", drawing_below_report),
    ]
)
