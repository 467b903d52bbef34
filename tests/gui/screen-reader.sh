#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Gives screen-reader.py a display and a session bus of its own.
# usage: screen-reader.sh WINDOW-PROGRAM BATCH-PROGRAM DEMO-SURVEY
set -u
script=$(dirname "$0")/screen-reader.py
for tool in xvfb-run xdotool dbus-run-session; do
  command -v $tool >/dev/null || { echo "1..0 # SKIP no $tool"; exit 0; }
done
/usr/bin/python3 -c 'import gi; gi.require_version ("Atspi", "2.0")' 2>/dev/null \
  || { echo "1..0 # SKIP no accessibility bus for scripts"; exit 0; }
home=$(mktemp -d)
trap 'rm -rf "$home"' EXIT
export HOME="$home" XDG_CONFIG_HOME="$home/c" XDG_DATA_HOME="$home/d" XDG_CACHE_HOME="$home/k" XDG_RUNTIME_DIR="$home"
export GSK_RENDERER=cairo GSETTINGS_BACKEND=memory
# The sentences it listens for are written with a point.
export LC_ALL=C.UTF-8
unset DBUS_SESSION_BUS_ADDRESS G_DEBUG GTK_A11Y
cp "$3" "$home/walk.bondsurvey" && chmod u+w "$home/walk.bondsurvey"
# The bus and its helpers talk on the standard output: only the script's own words go to ours.
exec 5>&1
xvfb-run -a -s "-screen 0 1280x800x24" dbus-run-session -- \
  sh -c 'xdotool mousemove 600 400; exec /usr/bin/python3 -B "$0" "$@" >&5' "$script" "$1" "$2" "$home/walk.bondsurvey" \
  >"$home/out" 2>"$home/errors"
status=$?
[ $status -eq 0 ] || sed 's/^/# /' "$home/errors"
exit $status
