#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Two programs on one survey, each with a home of its own, both driven from outside: the second is asked before it
# reads, takes over when the first has closed, finds out when somebody replaces the file beneath it, and nothing that
# any of them confirmed is lost.  What the windows say in words is tested from inside (window, messages).
# usage: xdotool-two.sh WINDOW-PROGRAM BATCH-PROGRAM MAKE-FORTY
set -u
. "$(dirname "$0")/xdotool-common.sh"
G_TEST_SRCDIR=unused "$3" "$survey" >"$home/made" 2>&1 || { echo "Bail out! no survey: $(cat "$home/made")"; exit 1; }
touch "$home/out"
pids=
trap 'for p in $pids; do kill "$p" 2>/dev/null; done; rm -rf "$home"' EXIT

# picture NAME: for the eye, where BOND_PICTURES names a folder
picture () {
  [ -z "${BOND_PICTURES:-}" ] || { sleep 1; import -window root "$BOND_PICTURES/$1.png"; }
}

# start NAME FILE: a program of its own in the background; its process is $pid
start () {
  mkdir -p "$home/$1"
  HOME="$home/$1" XDG_CONFIG_HOME="$home/$1/c" XDG_DATA_HOME="$home/$1/d" XDG_CACHE_HOME="$home/$1/k" \
    BONDWRIGHT_TRACE="$home/$1.trace" BONDWRIGHT_FOCUS_TRACE="$home/$1.focus" "$window" "$2" >>"$home/out" 2>&1 &
  pid=$!
  pids="$pids $pid"
}

# shows PID NAME: a window of that program whose title holds NAME; its id is $id
shows () {
  id=$(xdotool search --all --onlyvisible --pid "$1" --name "$2" 2>/dev/null | tail -n 1)
  [ -n "$id" ]
}

# front: window $id gets the keys and the whole screen
front () {
  xdotool windowmove "$id" 0 0 windowsize "$id" ${BOND_TWO_SIZE:-1280 800}
  xdotool windowraise "$id" windowfocus --sync "$id" 2>/dev/null
  xdotool mousemove 640 420
  sleep 2
}

# begin PID NAME WHAT: waits for the window of the survey and leaves the page of the cautions
begin () {
  wait_for 30 shows "$1" ZZ- || fail "$3"
  front
  xdotool key Return
  sleep 2
}

# count NAME: how many entries that program confirmed
count () {
  cat "$home/$1.trace" 2>/dev/null | wc -l
}

confirmed () {
  [ "$(count "$1")" -ge "$2" ]
}

# record NAME READING WHAT: types it in the window in front and waits until it is confirmed
record () {
  n=$(count "$1")
  xdotool type --delay 200 "$2"
  xdotool key Return
  wait_for 10 confirmed "$1" $((n + 1)) || fail "$3"
  sleep 0.5
}

ended () {
  ! kill -0 "$1" 2>/dev/null
}

# leave PID WHAT: closes the window in front by its key
leave () {
  xdotool key ctrl+w
  wait_for 10 ended "$1" || fail "$2"
}

# holds FILE WHAT NAME…: all that those programs confirmed is in FILE
holds () {
  file=$1 what=$2
  shift 2
  for name in "$@"; do
    while read -r entry; do
      grep -q "id=\"$entry\"" "$file" || fail "$what: $entry of the $name program is in $(basename "$file")"
    done <"$home/$name.trace"
  done
}

echo "1..6"
what="1 - the second program is asked and told; Cancel opens nothing"
start first "$survey"
first=$pid
begin $first first "$what"
record first 1.11 "$what"
first_window=$id
start second "$survey"
wait_for 30 shows $pid "Open Elsewhere" || fail "$what"
xdotool windowfocus --sync "$id" 2>/dev/null
picture asked
shows $pid ZZ- && fail "$what"
shows $pid "Open Elsewhere" && xdotool windowfocus --sync "$id" key Escape
sleep 1
shows $pid "Open Elsewhere" && fail "$what"
shows $pid ZZ- && fail "$what"
shows $pid . && xdotool windowfocus --sync "$id" key ctrl+q
wait_for 10 ended $pid || fail "$what"
echo "ok $what"

what="2 - opened read-only it records nothing, and the first goes on"
start second "$survey"
second=$pid
wait_for 30 shows $second "Open Elsewhere" || fail "$what"
xdotool windowfocus --sync "$id" key Return
begin $second second "$what"
second_window=$id
picture read-only
xdotool type --delay 200 2.22
xdotool key Return
sleep 1
confirmed second 1 && fail "$what"
id=$first_window
front
record first 1.12 "$what"
leave $first "$what"
holds "$survey" "$what" first
echo "ok $what"

what="3 - the second takes over what the first recorded, and records"
id=$second_window
front
sleep 4 # it looks every three seconds
picture free
xdotool key alt+t
sleep 2
begin $second second "$what"
picture taken
cp "$survey" "$home/theirs.bondsurvey"
n=$(count second)
xdotool key Return # what was typed when it could not be recorded
wait_for 10 confirmed second $((n + 1)) || fail "$what: what was typed before came along"
sleep 0.5
record second 1.13 "$what"
echo "ok $what"

what="4 - somebody replaces the file: theirs stays, ours is kept beside it"
start third "$home/theirs.bondsurvey"
third=$pid
begin $third third "$what"
record third 1.33 "$what"
leave $third "$what"
cp "$home/theirs.bondsurvey" "$home/replaced" && mv "$home/replaced" "$survey"
shows $second ZZ- || fail "$what"
front
record second 1.14 "$what"
xdotool key ctrl+w
sleep 1
picture changed
ended $second || leave $second "$what"
cmp -s "$home/theirs.bondsurvey" "$survey" || fail "$what: theirs is untouched"
kept=$(ls "$home"/walk*.kept-* 2>/dev/null | head -n 1)
[ -n "$kept" ] || fail "$what: a copy is kept"
holds "$kept" "$what" first second
echo "ok $what"

what="5 - opened again the survey has what all three recorded"
start fourth "$survey"
begin $pid fourth "$what"
picture again
record fourth 1.15 "$what"
leave $pid "$what"
holds "$survey" "$what" first second third fourth
"$batch" validate "$survey" >>"$home/out" 2>&1 || fail "$what"
echo "ok $what"

what="6 - two that went on apart stay as they are until they are merged"
copy="$home/walk (conflicted copy 2026-11-24).bondsurvey"
cp "$survey" "$copy"
start fifth "$copy"
begin $pid fifth "$what"
record fifth 1.16 "$what"
leave $pid "$what"
start sixth "$survey"
begin $pid sixth "$what"
record sixth 1.17 "$what"
leave $pid "$what"
start seventh "$survey"
begin $pid seventh "$what"
picture apart
leave $pid "$what"
holds "$survey" "$what" first second third fourth sixth
holds "$copy" "$what" first second third fourth fifth
"$batch" validate "$survey" "$copy" >"$home/valid" 2>&1 || fail "$what"
grep -q "id=\"$(tail -n 1 "$home/fifth.trace")\"" "$survey" && fail "$what: nobody merged them in silence"
[ "$(grep -c . "$home/out")" -eq 0 ] || fail "$what: the programs complain of nothing"
echo "ok $what"
