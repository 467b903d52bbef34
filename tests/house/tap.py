# SPDX-License-Identifier: GPL-3.0-or-later
"""The few lines of TAP that the checks of the house share: one case a rule, its findings as remarks."""
import sys


def run(cases):
    """Runs (name, function) pairs; a function returns a list of findings.  Exit status 1 when one has any."""
    bad = 0
    print(f"1..{len(cases)}")
    for number, (name, function) in enumerate(cases, start=1):
        findings = function()
        bad += bool(findings)
        print(f"{'not ok' if findings else 'ok'} {number} {name}")
        for finding in findings:
            print(f"# {finding}")
    sys.exit(1 if bad else 0)
