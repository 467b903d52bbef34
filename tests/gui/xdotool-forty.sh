#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Forty points walked with nothing but the number keys, the space and Enter: at most five keystrokes for a single
# reading and ten for a pair, the keys never leave the reading field, and the file holds what was typed, value by value.
# usage: xdotool-forty.sh WINDOW-PROGRAM BATCH-PROGRAM MAKE-FORTY
set -u
. "$(dirname "$0")/xdotool-common.sh"
G_TEST_SRCDIR=unused "$3" "$survey" >"$home/made" 2>&1 || { echo "Bail out! no survey: $(cat "$home/made")"; exit 1; }

echo "1..5"
open_window "1 - the window opens with the keys in the field"
echo "ok 1 - the window opens with the keys in the field"
: >"$BONDWRIGHT_FOCUS_TRACE" # from here on nothing else may get the keys
: >"$BONDWRIGHT_TRACE"       # the cautions
began=$(date +%s)

# press TEXT: the text and Enter, each key counted
press () { # xdotool waits half its delay between two keys; 50 ms would be a scanner
  xdotool type --delay 140 "$1"
  xdotool key Return
  keys=$((keys + ${#1} + 1))
}
# Figures that no other point has: 1.11, 1.12 …; a pair 0.02 apart.
most_single=0 most_pair=0 readings=0 point=0
while [ $point -lt 40 ]; do
  point=$((point + 1))
  keys=0
  value="1.$((10 + point))"
  number=$(printf '521-J%02d' $point)
  echo "$number $value" >>"$home/typed"
  if [ $((point % 4)) -ne 0 ]; then
    readings=$((readings + 1))
    press "$value"
    [ $keys -le $most_single ] || most_single=$keys
  else
    readings=$((readings + 2))
    second="1.$((12 + point))"
    echo "$number $second" >>"$home/typed"
    if [ $((point % 8)) -ne 0 ]; then
      press "$value"
      wait_for 10 traced $((readings - 1)) || fail "2 - $value on $number is confirmed"
      press "$second"
    else
      press "$value $second"
    fi
    [ $keys -le $most_pair ] || most_pair=$keys
  fi
  wait_for 10 traced $readings || fail "2 - the reading $value on $number is confirmed"
done
echo "# $readings readings on $point points in $(($(date +%s) - began)) s"
echo "# keystrokes: at most $most_single a single reading, $most_pair a pair"
[ "$(wc -l <"$BONDWRIGHT_TRACE")" -eq $readings ] || fail "2 - nothing but the readings was recorded"
[ $most_single -le 5 ] && [ $most_pair -le 10 ] || fail "2 - 5 keystrokes a reading, 10 a pair"
echo "ok 2 - 40 points walked, at most 5 keystrokes a reading, 10 a pair"

sleep 0.5
moves=$(wc -l <"$BONDWRIGHT_FOCUS_TRACE")
[ "$moves" -eq 0 ] || { sed 's/^/# keys went to: /' "$BONDWRIGHT_FOCUS_TRACE"; fail "3 - the keys never leave the field"; }
echo "ok 3 - the keys never leave the field"

close_window 4
echo "ok 4 - the file is sound and nothing was complained of"

# Every reading of the file in its order: number of its point, text as typed, nano-ohms; beside what was typed.
sed -n 's/.* kind="point" point="\([^"]*\)".*<point number="\([^"]*\)".*/s_\1_\2_/p' "$survey" >"$home/numbers"
sed -n 's/.* kind="reading" point="\([^"]*\)".* text="\([^"]*\)".* nohm="\([^"]*\)".*/\1 \2 \3/p' "$survey" \
  | sed -f "$home/numbers" >"$home/kept"
awk '{ split ($2, part, "."); print $1, $2, part[1] part[2] "0000" }' "$home/typed" >"$home/wanted"
if ! diff "$home/wanted" "$home/kept" >"$home/out"; then
  fail "5 - the file equals what was typed"
fi
"$batch" judge "$survey" >"$home/judged"
grep -q '^# points=40 scope=40 measured=40 conform=40 fail=0 suspect=0 open=0$' "$home/judged" \
  || { tail -n 1 "$home/judged" >"$home/out"; fail "5 - the other program finds 40 points that conform"; }
echo "ok 5 - the file equals what was typed"
