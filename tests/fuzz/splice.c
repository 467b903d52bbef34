/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the register targets share; see splice.h.
 */
#include "splice.h"

#include "store/register-file.h"

#include <libxml/parser.h>
#include <string.h>

/* Where the next quote stands at or after @from, NULL when none. */
static const char *
next_quote (const GString *text, gsize from)
{
  return from < text->len ? memchr (text->str + from, '\'', text->len - from) : NULL;
}

/* The @n-th quoted value, counting round; FALSE when there is none. */
static gboolean
find_value (const GString *text, guint n, gsize *start, gsize *end)
{
  g_autoptr (GArray) starts = g_array_new (FALSE, FALSE, sizeof (gsize));
  const char *open, *close;
  gsize at = 0;

  while ((open = next_quote (text, at)) != NULL && (close = next_quote (text, open - text->str + 1)) != NULL)
    {
      gsize value = open - text->str + 1;

      g_array_append_val (starts, value);
      at = close - text->str + 1;
    }
  if (starts->len == 0)
    return FALSE;
  *start = g_array_index (starts, gsize, n % starts->len);
  *end = next_quote (text, *start) - text->str;
  return TRUE;
}

static void
change (GString *text, guint8 high, guint8 low, const char *what, gsize length)
{
  guint n = (guint)(high & 127) << 8 | low;
  gsize start, end;

  if (high > 127)
    g_string_insert_len (text, n % (text->len + 1), what, length);
  else if (find_value (text, n, &start, &end))
    {
      g_string_erase (text, start, end - start);
      g_string_insert_len (text, start, what, length);
    }
}

char *
fuzz_splice (const char *text, const guint8 *data, gsize size, gsize *length)
{
  GString *out = g_string_new (text);

  while (size >= 2)
    {
      const guint8 *what = data + 2, *end = memchr (what, '\n', size - 2);
      gsize n = end != NULL ? (gsize)(end - what) : size - 2;

      change (out, data[0], data[1], (const char *)what, n);
      n = MIN (size, n + 3);
      data += n;
      size -= n;
    }
  *length = out->len;
  return g_string_free (out, FALSE);
}

static void
check_stable (BondAdoptKind what, gpointer object)
{
  g_autofree char *first = bond_register_to_text (what, object, NULL), *second = NULL;
  g_autoptr (GError) error = NULL;
  BondAdoptKind again;
  gpointer back = bond_register_load_bytes ("again.xml", first, strlen (first), &again, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpint (again, ==, what);
  second = bond_register_to_text (again, back, NULL);
  g_assert_cmpstr (first, ==, second);
  bond_register_unref (again, back);
}

static void
try_file (const char *text, gsize length)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (GError) error = NULL;
  BondAdoptKind what;
  gpointer object = bond_register_load_bytes ("fuzz.xml", text, length, &what, problems, &error);

  if (object != NULL)
    {
      check_stable (what, object);
      bond_register_unref (what, object);
      return;
    }
  g_assert_nonnull (error);
  g_assert_cmpint (problems->len, >, 0);
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
}

/* The readers without the schema before them: they must not trust that it was asked. */
static void
try_node (const char *text, gsize length)
{
  xmlDoc *doc = xmlReadMemory (text, (int)length, "fuzz.xml", "UTF-8",
                               XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING);
  xmlNode *root = doc != NULL ? xmlDocGetRootElement (doc) : NULL;
  g_autoptr (GError) error = NULL;
  BondAdoptKind what;
  gpointer object;

  if (root != NULL)
    {
      object = bond_register_read (root, &what, "fuzz.xml", &error);
      g_assert_true ((object == NULL) == (error != NULL));
      if (object != NULL)
        {
          g_free (what == BOND_ADOPT_EARLIER ? NULL : bond_register_to_text (what, object, NULL));
          bond_register_unref (what, object);
        }
    }
  xmlFreeDoc (doc);
}

int
fuzz_register (const char *text, const guint8 *data, gsize size)
{
  g_autofree char *spliced = NULL;
  gsize length;
  static gsize once;

  if (g_once_init_enter (&once))
    {
      bond_xml_init ();
      g_once_init_leave (&once, 1);
    }
  if (size < 1)
    return 0;
  if (data[0] == 0)
    {
      try_file ((const char *)data + 1, size - 1);
      return 0;
    }
  spliced = fuzz_splice (text, data + 1, size - 1, &length);
  /* Compiling the schema takes a hundred times as long as reading: few executions go that way. */
  if (data[0] < 16)
    try_file (spliced, length);
  else
    try_node (spliced, length);
  return 0;
}
