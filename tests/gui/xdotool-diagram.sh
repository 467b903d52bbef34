#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
#
# The diagram under a real pointer and real keys: a click places a point, a drag moves its mark, undo takes the move
# back, the arrows go from mark to mark, a double click zooms and places nothing; the file holds each as an entry.
# usage: xdotool-diagram.sh WINDOW-PROGRAM BATCH-PROGRAM DEMO-SURVEY
set -u
. "$(dirname "$0")/xdotool-common.sh"
cp "$3" "$survey" && chmod u+w "$survey"

echo "1..6"
open_window "1 - a click in a zone places a point there"
n=$(wc -l <"$BONDWRIGHT_TRACE")
# An empty place of the aft cabin, Upper view: no vapour there, so no band comes that would move the diagram.
xdotool key ctrl+1
sleep 0.5
xdotool key ctrl+0
sleep 1
xdotool mousemove 608 560
sleep 0.3
xdotool click 1
sleep 2
xdotool type --delay 100 "Trial end"
xdotool key Tab
xdotool type --delay 100 "Other end"
xdotool key Return
n=$((n + 1))
wait_for 20 traced $n || fail "1 - a click in a zone places a point there"
wait_for 20 in_field || fail "1 - the field has the keys again"
echo "ok 1 - a click in a zone places a point there"

# drag FROM-X FROM-Y TO-X TO-Y: as a hand does, in steps
drag () {
  xdotool mousemove $1 $2
  sleep 0.3
  xdotool mousedown 1
  for step in 1 2 3 4 5; do
    xdotool mousemove $(($1 + ($3 - $1) * step / 5)) $(($2 + ($4 - $2) * step / 5))
    sleep 0.1
  done
  xdotool mouseup 1
}
drag 610 560 624 484
n=$((n + 1))
wait_for 20 traced $n || fail "2 - a drag moves the mark in hand"
wait_for 20 in_field || fail "2 - the field has the keys again"
echo "ok 2 - a drag moves the mark in hand"

xdotool key u
n=$((n + 1))
wait_for 20 traced $n || fail "3 - undo takes the move back"
echo "ok 3 - undo takes the move back"

# A drag on an empty place pans, a double click zooms: neither is an entry, nor asks for one.
drag 380 640 420 660
sleep 0.5
drag 420 660 380 640
sleep 0.5
xdotool mousemove 642 552
sleep 0.3
xdotool click --repeat 2 --delay 80 1
sleep 1.5
[ "$(wc -l <"$BONDWRIGHT_TRACE")" -eq $n ] || fail "4 - panning and zooming record nothing"
in_field || fail "4 - the field has the keys after panning and zooming"
echo "ok 4 - panning and zooming record nothing, and the field keeps the keys"

in_diagram () {
  tail -n 1 "$BONDWRIGHT_FOCUS_TRACE" | grep -q BondDiagram
}
xdotool key ctrl+0
for pane in 1 2 3 4; do
  in_diagram && break
  xdotool key F6
  sleep 0.5
done
in_diagram || fail "5 - F6 comes to the diagram"
xdotool key Right
sleep 0.3
xdotool key Right
sleep 0.3
xdotool key Return
wait_for 20 in_field || fail "5 - Enter on a mark goes to its point"
xdotool type --delay 160 "1.84"
xdotool key Return
n=$((n + 1))
wait_for 20 traced $n || fail "5 - the reading on the point of that mark is confirmed"
echo "ok 5 - arrows go from mark to mark, Enter takes the point, and a reading follows"

xdotool mousemove 640 420
close_window 6
# The entries of the point that was placed, oldest first: placed, moved, and the move taken back.
id=$(grep '<from>Trial end</from>' "$survey" | sed -n '1s/.* kind="point" point="\([^"]*\)".*/\1/p')
grep " kind=\"point\" point=\"$id\"" "$survey" | sed 's/.*<at [^>]* x="\([^"]*\)" y="\([^"]*\)".*/\1 \2/' >"$home/places"
moved=$(grep " kind=\"point\" point=\"$id\"" "$survey" | sed -n '2s/.*<entry id="\([^"]*\)".*/\1/p')
{ echo "placed and moved:"; cat "$home/places"; } >"$home/out"
[ "$(wc -l <"$home/places")" -eq 2 ] && [ "$(uniq "$home/places" | wc -l)" -eq 2 ] || fail "6 - the move is an entry"
grep -q "kind=\"take-back\".* ref=\"$moved\"" "$survey" || fail "6 - the move is taken back by an entry"
grep -q " kind=\"reading\".* text=\"1.84\"" "$survey" || fail "6 - the reading is in the file"
echo "ok 6 - the file holds the place, the move, its undo and the reading"
