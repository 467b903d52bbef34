#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Everything a person reads can be translated: po/POTFILES lists each file with text, and nothing that is gone.

Also that each catalogue compiles and keeps the format directives of the original.
check-translations.py TOP checks; check-translations.py TOP --write writes the list anew.
"""
import pathlib
import re
import subprocess
import sys

import tap

top = pathlib.Path(sys.argv[1])
MARKED = re.compile(r"\b(_|N_|C_|NC_|ngettext|g_dngettext|g_dpgettext2?)\s*\(\s*\"")
UI_TEXT = re.compile(r'translatable="(yes|true)"')
listed = [line.strip() for line in (top / "po/POTFILES").read_text(encoding="utf-8").splitlines()]
listed = [line for line in listed if line and not line.startswith("#")]


def sources_with_text():
    for path in sorted((top / "src").rglob("*.[ch]")):
        if MARKED.search(path.read_text(encoding="utf-8")):
            yield str(path.relative_to(top))
    for path in sorted((top / "ui").rglob("*.ui")):
        if UI_TEXT.search(path.read_text(encoding="utf-8")):
            yield str(path.relative_to(top))
    for path in sorted([*(top / "data").glob("*.in"), *(top / "data").glob("*.gschema.xml")]):
        yield str(path.relative_to(top))


if sys.argv[2:] == ["--write"]:
    (top / "po/POTFILES").write_text("".join(f"{name}\n" for name in sorted(set(sources_with_text()))), encoding="utf-8")
    sys.exit(0)


def missing():
    return [name for name in sources_with_text() if name not in listed]


def gone():
    return [name for name in listed if not (top / name).is_file()]


def unsorted_or_twice():
    return [] if listed == sorted(set(listed)) else ["po/POTFILES is not in alphabetical order, or names a file twice"]


def catalogues():
    findings = []
    for path in sorted((top / "po").glob("*.po")):
        result = subprocess.run(
            ["msgfmt", "--check", "--output-file=/dev/null", str(path)], capture_output=True, text=True, check=False
        )
        if result.returncode:
            findings.append(result.stderr.strip().replace("\n", "; "))
    return findings


tap.run(
    [
        ("po/POTFILES lists every file with text", missing),
        ("po/POTFILES lists no file that is gone", gone),
        ("po/POTFILES is in order", unsorted_or_twice),
        ("every catalogue compiles", catalogues),
    ]
)
