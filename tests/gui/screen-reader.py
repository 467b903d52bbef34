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
    raise Failure(words() if callable(words) else words)


def application():
    desktop = Atspi.get_desktop(0)
    for i in range(desktop.get_child_count()):
        child = desktop.get_child_at_index(i)
        if child is not None and "ondwright" in (child.get_name() or ""):
            return child
    return None


def has(thing, state):
    return thing is not None and thing.get_state_set().contains(state)


def focused(root):
    for each in objects(root):
        if has(each, Atspi.StateType.FOCUSED):
            return each
    return None


def key(*keys):
    subprocess.run(["xdotool", "key", *keys], check=True)


def type_text(text):
    """As a hand types: a faster burst counts as a scanner."""
    subprocess.run(["xdotool", "type", "--delay", "120", text], check=True)
    time.sleep(0.5)


class Session:
    def __init__(self):
        self.complaints = open(SURVEY + ".complaints", "w+", encoding="utf-8")
        self.program = subprocess.Popen([WINDOW, SURVEY], stdout=self.complaints, stderr=self.complaints)
        self.frame = None
        self.field = None
        self.number = None  # of the point that is measured

    def said(self):
        self.field.clear_cache()
        return self.field.get_description() or ""

    def name(self):
        self.field.clear_cache()
        return self.field.get_name() or ""

    def here(self):
        """Number of the point in hand, as the name of the field says it."""
        return self.name().split()[2].rstrip(",")

    def hears(self, begins, *parts):
        """Waits until what is spoken begins so, and checks that it says @parts."""
        wait_for(lambda: self.said().startswith(begins), lambda: f"“{begins}” is not spoken but “{self.said()}”")
        said = self.said()
        for part in parts:
            expect(part in said, f"“{part}” is not in “{said}”")
        return said

    def window_opens(self):
        self.frame = wait_for(lambda: find(application(), "frame", "ZZ-"), "no window on the bus", 60)
        wait_for(lambda: find(self.frame, "label", "Before the Walk"), "the cautions are not there to be read")
        button = wait_for(lambda: focused(self.frame), "nothing has the focus")
        expect(button.get_name(), "what has the focus has no name")

    def field_has_focus(self):
        key("Return")
        self.field = wait_for(lambda: find(self.frame, "text", "Reading for "), "no field says what it is for")
        wait_for(lambda: has(self.field, Atspi.StateType.FOCUSED), "the field has no focus")
        self.number = self.here()
        expect("-" in self.number and "Forward, in milliohm" in self.name(), f"the field is named “{self.name()}”")

    def names(self):
        for each in objects(self.frame):
            if not has(each, Atspi.StateType.FOCUSABLE) or not has(each, Atspi.StateType.SHOWING):
                continue
            role = each.get_role_name()
            expect((each.get_name() or "").strip() or role in UNNAMED_ROLES, f"a {role} has no name")

    def refusal_is_spoken(self):
        type_text("1.8.4")
        key("Return")
        self.hears(self.number + ". ", "two decimal marks", "Nothing was recorded.")
        key("Escape")

    def half_is_spoken(self):
        type_text("1.84")
        key("Return")
        self.hears(f"{self.number} forward 1.84 milliohm. Reverse next.")
        wait_for(lambda: "Reverse, in milliohm" in self.name(), "the field does not ask for the other half")

    def record_by_bus(self):
        """No key at all: text and button through the bus."""
        Atspi.EditableText.set_text_contents(self.field, "1.86")
        button = wait_for(lambda: find(self.frame, "push button", "Record 1.85"), "no button says what it records")
        expect("pass" in button.get_name(), f"the button is named “{button.get_name()}”")
        Atspi.Action.do_action(button, 0)
        self.hears(self.number + " pass", "1.850 milliohm", " percent of the limit", " Next ")
        expect(self.here() != self.number, "the walk stays")

    def undo_is_spoken(self):
        key("ctrl+z")
        self.hears(f"{self.number}. Undone: 1.86 milliohm on {self.number}.")
        key("ctrl+shift+z")
        self.hears(f"{self.number}. Done again: ")

    def jump_is_spoken(self):
        key("Down")
        wait_for(lambda: self.here() != self.number, "the walk stays")
        self.hears(self.here() + ", ", "limit")
        key("Escape")
        type_text("#" + self.number)
        key("Return")
        self.hears(self.number + ", ", "pass")

    def mark(self):
        mark = wait_for(lambda: find(self.frame, "list item", self.number), f"no mark is named {self.number}")
        expect(len(mark.get_name().split(",")) >= 3, f"a mark is named only “{mark.get_name()}”")

    def focus_stayed(self):
        self.field.clear_cache()
        expect(has(self.field, Atspi.StateType.FOCUSED), "the focus left the field")

    def file_holds_it(self):
        key("ctrl+w")
        self.program.wait(20)
        self.complaints.seek(0)
        said = self.complaints.read()
        expect(not said, f"the program complains: {said}")
        out = subprocess.run([BATCH, "judge", SURVEY], capture_output=True, text=True, check=False).stdout
        line = next((each for each in out.splitlines() if f"\t{self.number}\t" in each), "")
        expect("\t0.00185\t" in line, f"the file says “{line}”")

    def close(self):
        if self.program.poll() is None:
            self.program.terminate()
            self.program.wait(10)
        self.complaints.close()


STEPS = [
    ("the window and its cautions are read", Session.window_opens),
    ("the reading field says what it is for and has the focus", Session.field_has_focus),
    ("whatever takes the focus has a name", Session.names),
    ("a text that is no reading is refused aloud", Session.refusal_is_spoken),
    ("half a pair is spoken, and what comes next", Session.half_is_spoken),
    ("the other half is recorded through the bus alone, its verdict spoken", Session.record_by_bus),
    ("undo and redo are spoken", Session.undo_is_spoken),
    ("a step and a jump are spoken", Session.jump_is_spoken),
    ("the mark in hand is named with its state", Session.mark),
    ("the focus stayed in the field", Session.focus_stayed),
    ("the file holds what was heard, and nothing was complained of", Session.file_holds_it),
]


def main():
    print(f"1..{len(STEPS)}", flush=True)
    Atspi.init()
    session = Session()
    try:
        for n, (words, step) in enumerate(STEPS, 1):
            try:
                step(session)
            except (Failure, subprocess.SubprocessError, gi.repository.GLib.GError) as failure:
                print(f"not ok {n} - {words}\n# {failure}", flush=True)
                return 1
            print(f"ok {n} - {words}", flush=True)
    finally:
        session.close()
    return 0


if __name__ == "__main__":
    os.environ.pop("GTK_A11Y", None)
    sys.exit(main())
