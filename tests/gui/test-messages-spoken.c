/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a screen reader is given to speak (ui.md 9): the description of the reading
 * field after each kind of act, beginning with a point number, units spelled out.
 * Limit J2 (≤ 2.5 mΩ); 521-J03 asks for a pair (J-2.5L).
 */
#include "screen.h"
#include "window-fixture.h"

static const WindowPoint some_points[] = { { "521-J01", "example/J2", BOND_CONDITION_UNDISTURBED },
                                           { "521-J02", "example/J2", BOND_CONDITION_UNDISTURBED },
                                           { "662-J01", "example/J-2.5L", BOND_CONDITION_UNDISTURBED } };
static const WindowPoints points = { some_points, G_N_ELEMENTS (some_points) };

#define PATIENCE 60 /* looks, 50 ms apart: an undo is answered from the main loop, after it is on disk */

static char *
difference (WindowFixture *fixture, const char *text)
{
  GtkEditable *field = bond_reading_panel_get_entry (window_panel_of (fixture));

  return gtk_test_accessible_check_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text);
}

static void
assert_spoken (WindowFixture *fixture, const char *text)
{
  g_autofree char *wrong = difference (fixture, text);

  for (int i = 0; wrong != NULL && i < PATIENCE; i++)
    {
      screen_spin (50);
      g_free (wrong);
      wrong = difference (fixture, text);
    }
  if (wrong != NULL)
    g_error ("spoken: %s, not “%s”", wrong, text);
}

/* One row an act: keys into the field (or an action), and what is spoken then. */
static const struct
{
  const char *keys, *action, *spoken;
} rows[] = {
  { "1.83\n", NULL, "521-J01 pass, 1.83 milliohm, 73 percent of the limit. Next 521-J02, End 2, limit 2.5 milliohm." },
  { "3.12\n", NULL,
    "521-J02 fail, 3.12 milliohm, 125 percent of the limit. Type again to re-seat, or W rework, L leave, V void." },
  /* left as it is, and on */
  { "l", NULL,
    "521-J02 is left as it is; it stays in the list and needs rework or a disposition. Next 662-J01, End 3, limit 2.5 "
    "milliohm." },
  /* half a pair */
  { "1.84\n", NULL, "662-J01 forward 1.84 milliohm. Reverse next." },
  { "1.86\n", NULL, "662-J01 pass, 1.85 milliohm, 74 percent of the limit. Every point has a reading or a reason." },
  /* jumps: to what has no reading, and to what has */
  { "521-J01\n", NULL, "521-J01, End 1, limit 2.5 milliohm, pass." },
  { "521-J02\n", NULL, "521-J02, End 2, limit 2.5 milliohm, fail." },
  { "521-J99\n", NULL, "521-J02. There is no point 521-J99 in this survey." },
  /* not recorded */
  { "\0331.8.4\n", NULL, "521-J02. “1.8.4”: two decimal marks. Type the figure with one. Nothing was recorded." },
  /* questions */
  { "\0330\n", NULL, "521-J02. Zero: below the display step, or are the probes touching each other?" },
  { "\0331840\n", NULL,
    "521-J02. 1840 milliohm is 590 times the last reading here, 3.12 milliohm. Which unit did the meter show?" },
  /* undo and redo */
  { "\033521-J01\n", "win.undo", "662-J01. Undone: 1.86 milliohm on 662-J01." },
  { "\033", "win.redo", "662-J01. Done again: Reading 1.86 milliohm on 662-J01." },
};

static void
test_spoken (WindowFixture *fixture, gconstpointer data)
{
  window_begin (fixture);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s", rows[i].spoken);
      window_keys (fixture, rows[i].keys);
      if (rows[i].action != NULL)
        gtk_widget_activate_action (GTK_WIDGET (fixture->window), rows[i].action, NULL);
      window_wait_written (fixture);
      assert_spoken (fixture, rows[i].spoken);
    }
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  if (bond_locale_mark () == ',')
    return g_test_run (); /* the sentences above are written with a point */
  g_test_add ("/gui/spoken/acts", WindowFixture, &points, window_set_up, test_spoken, window_tear_down);
  return g_test_run ();
}
