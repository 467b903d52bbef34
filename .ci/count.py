#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Counts single test cases in Meson's log and prints "N passed, N failed" as the last line.

A program that dies counts as one failed case beside those it had reported.  Exit status 1 when anything failed or
nothing ran at all.
"""
import json
import re
import sys

CASE = re.compile(r"^(not ok|ok)\b([^\n]*)$", re.MULTILINE)
BAD = {"FAIL", "ERROR", "TIMEOUT", "INTERRUPT", "UNEXPECTEDPASS"}


def count_program(entry):
    """Returns (passed, failed, skipped) of one test program."""
    result = entry["result"]
    passed = failed = skipped = 0
    for word, rest in CASE.findall(entry.get("stdout") or ""):
        if re.search(r"#\s*SKIP", rest, re.IGNORECASE):
            skipped += 1
        elif word == "ok":
            passed += 1
        else:
            failed += 1
    if passed + failed + skipped == 0:
        return (int(result == "OK"), int(result in BAD), int(result == "SKIP"))
    if result in BAD and failed == 0:
        failed = 1
    return (passed, failed, skipped)


def main(paths):
    totals = [0, 0, 0]
    for path in paths:
        try:
            with open(path, encoding="utf-8") as log:
                entries = [json.loads(line) for line in log]
        except OSError as error:
            print(f"no test log: {error}")
            entries = []
        for entry in entries:
            counts = count_program(entry)
            totals = [a + b for a, b in zip(totals, counts)]
            if counts[1]:
                print(f"failed: {entry['name']}: {counts[1]} of {sum(counts)} ({entry['result']})")
    passed, failed, skipped = totals
    if passed + failed == 0:
        failed = 1
        print("failed: no test ran")
    if skipped:
        print(f"{skipped} skipped")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


sys.exit(main(sys.argv[1:]))
