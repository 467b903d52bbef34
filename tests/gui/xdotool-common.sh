# SPDX-License-Identifier: GPL-3.0-or-later
#
# What the scripts that drive the window from outside share: a screen and a home of their own, the window started
# on a copy of a survey, waiting, and TAP lines.  Sourced with the script's own arguments: WINDOW-PROGRAM BATCH-PROGRAM …
window=$1 batch=$2
for tool in xvfb-run xdotool; do
  command -v $tool >/dev/null || { echo "1..0 # SKIP no $tool"; exit 0; }
done
if [ -z "${BOND_WALK_SCREEN:-}" ]; then
  BOND_WALK_SCREEN=yes exec xvfb-run -a -s "-screen 0 1280x800x24" "$0" "$@"
fi
home=$(mktemp -d)
program=
trap '[ -z "$program" ] || kill "$program" 2>/dev/null; rm -rf "$home"' EXIT
export HOME="$home" XDG_CONFIG_HOME="$home/c" XDG_DATA_HOME="$home/d" XDG_CACHE_HOME="$home/k"
export GSK_RENDERER=cairo GTK_A11Y=none GSETTINGS_BACKEND=memory
export BONDWRIGHT_TRACE="$home/trace" BONDWRIGHT_FOCUS_TRACE="$home/focus"
unset DBUS_SESSION_BUS_ADDRESS G_DEBUG
survey="$home/walk.bondsurvey"

# fail "NUMBER - WHAT": says so with all that the program said, and ends
fail () {
  echo "not ok $1"
  sed 's/^/# /' "$home/out"
  exit 1
}

# wait_for SECONDS COMMAND…: until the command is true
wait_for () {
  tries=$(($1 * 10))
  shift
  while [ $tries -gt 0 ]; do
    "$@" && return 0
    sleep 0.1
    tries=$((tries - 1))
  done
  return 1
}

# traced COUNT: so many entries are confirmed
traced () {
  [ "$(wc -l <"$BONDWRIGHT_TRACE" 2>/dev/null || echo 0)" -ge "$1" ]
}

in_field () {
  [ "$(tail -n 1 "$BONDWRIGHT_FOCUS_TRACE" 2>/dev/null)" = "GtkText BondReadingEntry" ]
}

shown () {
  id=$(xdotool search --onlyvisible --pid "$program" --name ZZ- 2>/dev/null | head -n 1)
  [ -n "$id" ]
}

# open_window: starts the program on $survey, 1280 x 800, and leaves the page of the cautions by its key
open_window () {
  "$window" "$survey" >"$home/out" 2>&1 &
  program=$!
  wait_for 30 shown || fail "$1"
  xdotool windowmove "$id" 0 0 windowsize "$id" 1280 800
  xdotool mousemove 640 420
  xdotool windowfocus --sync "$id" 2>/dev/null
  sleep 2
  xdotool key Return
  wait_for 20 in_field || fail "$1"
  wait_for 20 traced 1 || fail "$1" # that the cautions were read is an entry
  sleep 0.5
}

gone () {
  ! kill -0 "$program" 2>/dev/null
}

# close_window NUMBER: by its key; nothing was said on the way, and the file is sound and holds all that was confirmed
close_window () {
  xdotool key ctrl+w
  wait_for 10 gone || fail "$1 - the window closes"
  program=
  [ ! -s "$home/out" ] || fail "$1 - the program complains of nothing"
  "$batch" validate "$survey" >"$home/out" 2>&1 || fail "$1 - the file is sound"
  while read -r entry; do
    grep -q "id=\"$entry\"" "$survey" || fail "$1 - $entry is in the file"
  done <"$BONDWRIGHT_TRACE"
}
