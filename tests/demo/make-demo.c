/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Writes the demo survey:  make-demo OUT.bondsurvey
 * Run by hand when its scenario or the file format has changed; the test beside it
 * says when that is due.
 */
#include "demo.h"

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  if (argc != 2)
    {
      g_printerr ("make-demo OUT.bondsurvey\n");
      return 2;
    }
  bond_xml_init ();
  if (!demo_write (argv[1], &error))
    {
      g_printerr ("%s\n", error->message);
      return 1;
    }
  return 0;
}
