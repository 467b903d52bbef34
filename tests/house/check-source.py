#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Rules for every source file: licence line, purpose, size, and the calls that are not used.

A call is banned when it reads a number by the locale's rules, stops at the first letter it does not know and calls the
rest fine, writes without a bound, or changes the locale behind GTK's back.
"""
import pathlib
import re
import sys

import tap

FILE_LINES = 600
FUNCTION_LINES = 60
UI_LINES = 300
BANNED = re.compile(
    r"\b(strtod|atof|atoi|atol|sprintf|vsprintf|strcpy|strcat|sscanf|g_strtod|setlocale|gtk_spin_button\w*)\s*\("
)
COMMENT = re.compile(r"/\*.*?\*/|//[^\n]*", re.DOTALL)

top = pathlib.Path(sys.argv[1])
product = sorted(p for p in (top / "src").rglob("*") if p.suffix in (".c", ".h"))
tests = sorted(p for p in (top / "tests").rglob("*") if p.suffix in (".c", ".h"))


def read(path):
    return path.read_text(encoding="utf-8")


def name(path):
    return path.relative_to(top)


def blank_comments(text):
    """The text without comments, line numbers kept."""
    return COMMENT.sub(lambda match: re.sub(r"[^\n]", " ", match.group()), text)


def banned_calls():
    findings = []
    for path in product:
        for number, line in enumerate(blank_comments(read(path)).splitlines(), start=1):
            for call in BANNED.findall(line):
                findings.append(f"{name(path)}:{number}: {call}")
    return findings


def long_files():
    limits = [(product + tests, FILE_LINES), (sorted((top / "ui").rglob("*.ui")), UI_LINES)]
    return [
        f"{name(path)}: {count} lines"
        for paths, limit in limits
        for path in paths
        for count in [len(read(path).splitlines())]
        if count > limit
    ]


def long_functions():
    """A function's braces stand in the first column: that is the house's style, and clang-format keeps it."""
    findings = []
    for path in product + tests:
        start = None
        for number, line in enumerate(read(path).splitlines(), start=1):
            if line.startswith("{"):
                start = number
            elif line.startswith("}") and start is not None:
                if line.strip() == "}" and number - start - 1 > FUNCTION_LINES:
                    findings.append(f"{name(path)}:{start}: {number - start - 1} lines")
                start = None
    return findings


def no_licence():
    return [
        str(name(path))
        for path in product + tests
        if not read(path).startswith("/* SPDX-License-Identifier: GPL-3.0-or-later")
    ]


def no_purpose():
    """The first comment holds more than the licence line."""
    return [str(name(path)) for path in product + tests if len(read(path).split("*/")[0].splitlines()) < 4]


tap.run(
    [
        ("no banned call", banned_calls),
        (f"no source above {FILE_LINES} lines, no .ui above {UI_LINES}", long_files),
        (f"no function above {FUNCTION_LINES} lines", long_functions),
        ("every source names its licence", no_licence),
        ("every source says why it exists", no_purpose),
    ]
)
