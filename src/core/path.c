/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Paths of an airframe drawing: four letters, absolute, and nothing else, so that a
 * drawing means the same to every reader.  Flattening and drawing are left to
 * whoever has a pen.
 */
#include "core/airframe.h"
#include "core/number.h"

#include <glib/gi18n-lib.h>

G_DEFINE_QUARK (bond_airframe_error, bond_airframe_error)

/* How many points each letter takes. */
static int
points_of (char letter)
{
  switch (letter)
    {
    case 'M':
    case 'L':
      return 1;
    case 'C':
      return 3;
    case 'Z':
      return 0;
    default:
      return -1;
    }
}

static const char *
skip_blanks (const char *p)
{
  while (g_ascii_isspace (*p))
    p++;
  return p;
}

/* Blanks, at most one comma, blanks. */
static const char *
skip_separator (const char *p)
{
  p = skip_blanks (p);
  return *p == ',' ? skip_blanks (p + 1) : p;
}

static gboolean
scan_xy (const char **at, BondXY *xy)
{
  const char *p = skip_blanks (*at);

  if (!bond_number_scan (&p, &xy->x))
    return FALSE;
  p = skip_separator (p);
  if (!bond_number_scan (&p, &xy->y))
    return FALSE;
  *at = p;
  return TRUE;
}

static gboolean
scan_op (const char **at, BondPathOp *op)
{
  const char *p = *at;
  int n = points_of (*p), i;

  if (n < 0)
    return FALSE;
  *op = (BondPathOp){ .op = *p++ };
  for (i = 0; i < n; i++)
    {
      if (i > 0)
        p = skip_separator (p);
      if (!scan_xy (&p, &op->p[i]))
        return FALSE;
    }
  *at = skip_blanks (p);
  return TRUE;
}

/* A pen that is down nowhere cannot draw: each subpath begins with M. */
static gboolean
may_follow (char before, char op)
{
  return op == 'M' || (before != '\0' && before != 'Z');
}

BondPath *
bond_path_parse (const char *d, GError **error)
{
  g_autoptr (BondPath) path = NULL;
  const char *p;
  char before = '\0';

  g_return_val_if_fail (d != NULL, NULL);
  path = g_new0 (BondPath, 1);
  path->text = g_strdup (d);
  path->ops = g_array_new (FALSE, FALSE, sizeof (BondPathOp));
  for (p = skip_blanks (d); *p != '\0';)
    {
      BondPathOp op;

      if (!scan_op (&p, &op) || !may_follow (before, op.op))
        {
          g_set_error (error, BOND_AIRFRAME_ERROR, BOND_AIRFRAME_ERROR_SYNTAX,
                       _ ("The path cannot be read at “%.20s”: only M, L, C and Z with plain numbers are allowed, and "
                          "each part begins with M. Write the path that way."),
                       p);
          return NULL;
        }
      before = op.op;
      g_array_append_val (path->ops, op);
    }
  return g_steal_pointer (&path);
}

void
bond_path_free (BondPath *path)
{
  if (path == NULL)
    return;
  g_free (path->text);
  g_array_unref (path->ops);
  g_free (path);
}
