/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Entry of the window program: translations, then the application.  The batch
 * program does the same work without a display.
 */
#include "gui/application.h"
#include <glib/gi18n-lib.h>

int
main (int argc, char **argv)
{
  g_autoptr (BondApplication) application = NULL;

  bindtextdomain (GETTEXT_PACKAGE, BOND_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_set_prgname (BOND_APP_ID);
  g_set_application_name ("Bondwright");
  application = bond_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
