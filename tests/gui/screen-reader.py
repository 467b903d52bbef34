#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
#
# The main job as somebody hears it who cannot see the screen: everything here goes through the accessibility bus, as a
# screen reader does; keys come from a keyboard, and one reading is entered by the bus alone.
# usage: screen-reader.py WINDOW-PROGRAM BATCH-PROGRAM SURVEY   (on a display and a session bus of its own)

import os
import subprocess
import sys
import time

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi  # noqa: E402

WINDOW, BATCH, SURVEY = sys.argv[1:4]
# Roles that hold others and are passed over when they have no name of their own.
UNNAMED_ROLES = {"scroll pane", "filler", "panel", "list", "table", "unknown"}
PLAN = 8


class Failure(Exception):
    """One expectation did not hold; the words say which."""


def expect(true, words):
    if not true:
        raise Failure(words)


def objects(root, depth=0):
    """Every object below @root that is on the screen."""
    if root is None or depth > 40:
        return
    yield root
    for i in range(root.get_child_count()):
        child = root.get_child_at_index(i)
        if child is not None and child.get_state_set().contains(Atspi.StateType.VISIBLE):
            yield from objects(child, depth + 1)


def find(root, role, begins=""):
    for each in objects(root):
        if each.get_role_name() == role and (each.get_name() or "").startswith(begins):
            return each
    return None


def wait_for(what, words, seconds=20):
    """The first true answer of @what; the tree is asked anew each time, as it changes under us."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        try:
            answer = what()
            if answer:
                return answer
        except gi.repository.GLib.GError:
            pass
        time.sleep(0.2)
    raise Failure(words)


def application():
    desktop = Atspi.get_desktop(0)
    for i in range(desktop.get_child_count()):
        child = desktop.get_child_at_index(i)
        if child is not None and "ondwright" in (child.get_name() or ""):
            return child
    return None


def focused(root):
    for each in objects(root):
        if each.get_state_set().contains(Atspi.StateType.FOCUSED):
            return each
    return None


def key(*keys):
    subprocess.run(["xdotool", "key", *keys], check=True)


def type_text(text):
    subprocess.run(["xdotool", "type", "--delay", "100", text], check=True)
    time.sleep(0.5)


class Session:
    def __init__(self):
        self.program = subprocess.Popen([WINDOW, SURVEY], stdout=subprocess.DEVNULL)
        self.frame = None
        self.number = None

    def window_opens(self):
        self.frame = wait_for(lambda: find(application(), "frame", "ZZ-"), "no window on the bus", 40)
        wait_for(lambda: find(self.frame, "label", "Before the Walk"), "the cautions are not there to be read")
        button = wait_for(lambda: focused(self.frame), "nothing has the focus")
        expect(button.get_name(), "what has the focus has no name")

    def field(self):
        return find(self.frame, "text", "Reading for ")

    def field_has_focus(self):
        key("Return")
        wait_for(self.field, "the reading field has no name that says what for")
        wait_for(lambda: self.field().get_state_set().contains(Atspi.StateType.FOCUSED), "the field has no focus")
        name = self.field().get_name()
        self.number = name.split()[2].rstrip(",")
        expect("-" in self.number and "milliohm" in name, f"the field is named “{name}”")

    def names(self):
        for each in objects(self.frame):
            states = each.get_state_set()
            if not states.contains(Atspi.StateType.FOCUSABLE) or not states.contains(Atspi.StateType.SHOWING):
                continue
            role = each.get_role_name()
            expect((each.get_name() or "").strip() or role in UNNAMED_ROLES, f"a {role} has no name")

    def verdict_is_spoken(self):
        number = self.number
        key("Escape")
        type_text("1.84")
        key("Return")
        said = wait_for(lambda: self.spoken(number), f"nothing was said of {number}")
        expect("pass" in said or "fail" in said or "forward" in said.lower(), f"no verdict in “{said}”")

    def spoken(self, number):
        field = self.field()
        said = (field.get_description() or "") if field is not None else ""
        return said if said.startswith(number) else None

    def next_point(self):
        wait_for(lambda: self.field() is not None and self.field().get_state_set().contains(Atspi.StateType.FOCUSED),
                 "the focus left the field")

    def record_by_bus(self):
        """No key at all: text and button through the bus."""
        number = self.field().get_name().split()[2].rstrip(",")
        Atspi.EditableText.set_text_contents(self.field(), "1.90")
        time.sleep(0.5)
        button = find(self.frame, "push button", "Record")
        expect(button is not None, "no button that records")
        Atspi.Action.do_action(button, 0)
        wait_for(lambda: self.spoken(number), f"nothing was said of {number} after the button")

    def marks(self):
        point = self.field().get_name().split()[2].rstrip(",")
        mark = wait_for(lambda: find(self.frame, "list item", point), f"no mark is named {point}")
        expect(len(mark.get_name().split(",")) >= 3, f"a mark is named only “{mark.get_name()}”")

    def file_holds_it(self):
        key("ctrl+w")
        self.program.wait(20)
        out = subprocess.run([BATCH, "judge", SURVEY], capture_output=True, text=True, check=False).stdout
        line = next((each for each in out.splitlines() if f"\t{self.number}\t" in each), "")
        expect("0.00184" in line, f"the file says “{line}”")

    def close(self):
        if self.program.poll() is None:
            self.program.terminate()
            self.program.wait(10)


def main():
    print(f"1..{PLAN}", flush=True)
    Atspi.init()
    session = Session()
    steps = [
        ("the window and its cautions are read", session.window_opens),
        ("the reading field says what it is for and has the focus", session.field_has_focus),
        ("whatever takes the focus has a name", session.names),
        ("the verdict is spoken through the field", session.verdict_is_spoken),
        ("the focus stays in the field", session.next_point),
        ("a reading is recorded through the bus alone", session.record_by_bus),
        ("the mark in hand is named with its state", session.marks),
        ("the file holds what was heard", session.file_holds_it),
    ]
    assert len(steps) == PLAN
    failed = False
    try:
        for n, (words, step) in enumerate(steps, 1):
            try:
                step()
                print(f"ok {n} - {words}", flush=True)
            except Failure as failure:
                print(f"not ok {n} - {words}\n# {failure}", flush=True)
                failed = True
                break
    finally:
        session.close()
    return 1 if failed else 0


if __name__ == "__main__":
    os.environ.pop("GTK_A11Y", None)
    sys.exit(main())
