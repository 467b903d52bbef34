#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
#
# The window from outside, as a person has it: opened on the demo survey, three readings typed, one point placed with
# the mouse, the window closed, and the file read by the other program.
# usage: xdotool-walk.sh WINDOW-PROGRAM BATCH-PROGRAM DEMO-SURVEY
set -u
. "$(dirname "$0")/xdotool-common.sh"
cp "$3" "$survey" && chmod u+w "$survey"

echo "1..4"
open_window "1 - the window opens"
echo "ok 1 - the window opens"

n=$(wc -l <"$BONDWRIGHT_TRACE")
for reading in 1.84 1.86 1.85; do
  xdotool key Escape
  xdotool type --delay 200 "$reading"
  sleep 0.3
  xdotool key Return
  n=$((n + 1))
  # A question (zero, unit, range) stands instead of a record: go on to the next point.
  wait_for 5 traced $n || fail "2 - reading $reading is confirmed"
  sleep 0.5
done
echo "ok 2 - three readings are confirmed"

# An empty place of the inner left wing, Upper view.
xdotool key Escape key ctrl+1
sleep 1
xdotool key ctrl+0
sleep 1
xdotool mousemove 540 445
sleep 0.5
xdotool click 1
sleep 2
xdotool type --delay 100 "Trial end"
xdotool key Tab
xdotool type --delay 100 "Other end"
xdotool key Return
n=$((n + 1))
wait_for 5 traced $n || fail "3 - a point placed with the mouse is confirmed"
echo "ok 3 - a point placed with the mouse is confirmed"

sleep 0.5
xdotool mousemove 640 420
close_window 4
grep -q 'Trial end' "$survey" || fail "4 - the point is in the file"
echo "ok 4 - everything confirmed is in the file"
