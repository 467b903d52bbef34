#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
#
# The window from outside, as a person has it: opened on the demo survey, three readings typed, one point placed with
# the mouse, the window closed, and the file read by the other program.
# usage: xdotool-walk.sh WINDOW-PROGRAM BATCH-PROGRAM DEMO-SURVEY
set -u
window=$1 batch=$2 demo=$3
for tool in xvfb-run xdotool; do
  command -v $tool >/dev/null || { echo "1..0 # SKIP no $tool"; exit 0; }
done
if [ -z "${BOND_WALK_SCREEN:-}" ]; then
  BOND_WALK_SCREEN=yes exec xvfb-run -a -s "-screen 0 1280x800x24" "$0" "$@"
fi
home=$(mktemp -d)
trap 'rm -rf "$home"' EXIT
export HOME="$home" XDG_CONFIG_HOME="$home/c" XDG_DATA_HOME="$home/d" XDG_CACHE_HOME="$home/k"
export GSK_RENDERER=cairo GTK_A11Y=none GSETTINGS_BACKEND=memory BONDWRIGHT_TRACE="$home/trace"
unset DBUS_SESSION_BUS_ADDRESS G_DEBUG
survey="$home/walk.bondsurvey"
cp "$demo" "$survey" && chmod u+w "$survey"

echo "1..4"
"$window" "$survey" >"$home/out" 2>&1 &
program=$!
fail () {
  echo "not ok $1"
  sed 's/^/# /' "$home/out"
  kill "$program" 2>/dev/null
  exit 1
}
# wait_for SECONDS COMMAND…: until the command is true
wait_for () {
  tries=$(($1 * 5))
  shift
  while [ $tries -gt 0 ]; do
    "$@" && return 0
    sleep 0.2
    tries=$((tries - 1))
  done
  return 1
}
traced () {
  [ "$(wc -l <"$BONDWRIGHT_TRACE" 2>/dev/null || echo 0)" -ge "$1" ]
}
shown () {
  id=$(xdotool search --onlyvisible --pid "$program" --name ZZ- 2>/dev/null | head -n 1)
  [ -n "$id" ]
}

wait_for 30 shown || fail "1 - the window opens"
xdotool windowmove "$id" 0 0 windowsize "$id" 1280 800
xdotool mousemove 640 420
xdotool windowfocus --sync "$id" 2>/dev/null
sleep 2
xdotool key Return # leaves the cautions
sleep 2
echo "ok 1 - the window opens"

n=0
for reading in 1.84 1.86 1.85; do
  xdotool key Escape
  xdotool type --delay 100 "$reading"
  sleep 0.3
  xdotool key Return
  n=$((n + 1))
  if ! wait_for 5 traced $n; then
    # A question (zero, unit, range) stands instead of a record: go on to the next point.
    fail "2 - reading $reading is confirmed"
  fi
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
wait_for 5 traced 4 || fail "3 - a point placed with the mouse is confirmed"
echo "ok 3 - a point placed with the mouse is confirmed"

sleep 0.5
xdotool mousemove 640 420
xdotool key ctrl+w
wait_for 10 sh -c "! kill -0 $program 2>/dev/null" || kill "$program"
"$batch" validate "$survey" >"$home/validate" 2>&1 || { sed 's/^/# /' "$home/validate"; fail "4 - the file is sound"; }
grep -q 'Trial end' "$survey" || fail "4 - the point is in the file"
while read -r entry; do
  grep -q "id=\"$entry\"" "$survey" || fail "4 - $entry is in the file"
done <"$BONDWRIGHT_TRACE"
echo "ok 4 - everything confirmed is in the file"
