/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The look before parsing.  libxml2 2.9 checks attributes for duplicates each
 * against each, and reads encodings and document types we never write; both are
 * turned away here in one pass over the bytes, at memchr() speed.
 */
#define _GNU_SOURCE /* memmem() */
#include "store/scan.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Where the look stands: everything before @at is understood. */
typedef struct
{
  const char *bytes;
  gsize length;
  gsize at;
  guint depth;
  gsize child_start; /* of the child of the root that is open */
  gsize child_name_length;
  BondScan *out;
} Look;

static const char cut_off[] = N_ ("the text ends inside a tag: the file is cut off. Use a backup or another copy.");

static gsize
find (const Look *look, gsize from, const char *what)
{
  gsize n = strlen (what);
  const char *hit = from < look->length ? memmem (look->bytes + from, look->length - from, what, n) : NULL;

  return hit == NULL ? G_MAXSIZE : (gsize)(hit - look->bytes) + n;
}

static gboolean
starts_with (const Look *look, const char *what)
{
  gsize n = strlen (what);

  return look->length - look->at >= n && memcmp (look->bytes + look->at, what, n) == 0;
}

static gsize
name_length (const Look *look, gsize from)
{
  gsize n = 0;

  while (from + n < look->length && strchr (" \t\r\n/>", look->bytes[from + n]) == NULL)
    n++;
  return n;
}

/* Returns what is wrong with the start tag at @at, else NULL with @end behind its '>'. */
static const char *
measure_tag (const Look *look, gsize *end)
{
  char quote = 0;
  guint attributes = 0;
  gsize limit = MIN (look->length, look->at + BOND_SCAN_MAX_TAG);

  for (gsize i = look->at + 1; i < limit; i++)
    {
      char c = look->bytes[i];

      if (quote != 0)
        {
          if (c == quote)
            quote = 0;
        }
      else if (c == '"' || c == '\'')
        {
          quote = c;
          if (++attributes > BOND_SCAN_MAX_ATTRIBUTES)
            return N_ ("an element has too many attributes. No file of this program looks like that; it is not read.");
        }
      else if (c == '>')
        {
          *end = i + 1;
          return NULL;
        }
    }
  if (limit < look->length)
    return N_ ("a tag is longer than 1 MB. No file of this program looks like that; it is not read.");
  return cut_off;
}

static void
close_child (Look *look, gsize end)
{
  BondSpan span = { look->child_start, end, look->child_name_length };

  g_array_append_val (look->out->children, span);
}

static const char *
take_start_tag (Look *look)
{
  gsize end = 0;
  const char *trouble = measure_tag (look, &end);

  if (trouble != NULL)
    return trouble;
  if (look->depth == 0 && look->out->root_end == 0)
    look->out->root_end = end;
  if (look->depth == 1)
    {
      look->child_start = look->at;
      look->child_name_length = name_length (look, look->at + 1);
    }
  if (look->bytes[end - 2] != '/')
    look->depth++;
  else if (look->depth == 1)
    close_child (look, end);
  look->at = end;
  return NULL;
}

static const char *
take_end_tag (Look *look)
{
  gsize end = find (look, look->at, ">");

  if (end == G_MAXSIZE)
    return cut_off;
  if (look->depth > 0 && --look->depth == 1)
    close_child (look, end);
  look->at = end;
  return NULL;
}

/* Comments, the XML declaration, CDATA: skipped to their end. */
static const char *
skip_to (Look *look, const char *what)
{
  gsize end = find (look, look->at + 2, what);

  if (end == G_MAXSIZE)
    return cut_off;
  look->at = end;
  return NULL;
}

static const char *
take_markup (Look *look)
{
  if (starts_with (look, "<!--"))
    return skip_to (look, "-->");
  if (starts_with (look, "<![CDATA["))
    return skip_to (look, "]]>");
  if (starts_with (look, "<!"))
    return N_ ("the file declares a document type (DOCTYPE). That is never read, because it can pull in other files "
               "or grow without end. Ask for a file without it.");
  if (starts_with (look, "<?xml ") && look->depth == 0)
    return skip_to (look, "?>");
  if (starts_with (look, "<?"))
    return N_ ("the file holds a processing instruction, which no file of this program does; it is not read.");
  if (starts_with (look, "</"))
    return take_end_tag (look);
  return take_start_tag (look);
}

/* What can be said of the bytes before any tag is looked at. */
static const char *
check_kind (const char *bytes, gsize length, gsize *trouble_at)
{
  gsize i = length >= 3 && memcmp (bytes, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;
  const char *nul;

  *trouble_at = G_MAXSIZE;
  while (i < length && strchr (" \t\r\n", bytes[i]) != NULL && bytes[i] != 0)
    i++;
  if (i == length)
    return N_ ("the file is empty. Nothing was read; use a backup or another copy.");
  nul = memchr (bytes, 0, length);
  if (bytes[i] != '<')
    return N_ ("this is not XML, so not a file of this program. Nothing was read; choose another file.");
  if (nul == NULL)
    return NULL;
  *trouble_at = nul - bytes;
  return N_ ("there is a NUL byte in the text: the file is damaged or not UTF-8. Use a backup or another copy.");
}

int
bond_scan_line (const char *bytes, gsize offset)
{
  int line = 1;
  const char *end = bytes + offset;

  for (const char *p = bytes; (p = memchr (p, '\n', end - p)) != NULL; p++)
    line++;
  return line;
}

char *
bond_scan_xml (const char *bytes, gsize length, BondScan *scan, int *line)
{
  Look look = { bytes, length, 0, 0, 0, 0, scan };
  gsize trouble_at;
  const char *trouble = check_kind (bytes, length, &trouble_at);
  const char *next;

  scan->root_end = 0;
  scan->children = g_array_new (FALSE, FALSE, sizeof (BondSpan));
  *line = trouble_at == G_MAXSIZE ? 0 : bond_scan_line (bytes, trouble_at);
  if (trouble != NULL)
    return g_strdup (_ (trouble));
  while ((next = memchr (bytes + look.at, '<', length - look.at)) != NULL)
    {
      look.at = next - bytes;
      trouble = take_markup (&look);
      if (trouble == NULL)
        continue;
      *line = bond_scan_line (bytes, look.at);
      return g_strdup (_ (trouble));
    }
  return NULL;
}

void
bond_scan_clear (BondScan *scan)
{
  g_clear_pointer (&scan->children, g_array_unref);
}

gboolean
bond_span_is (const BondSpan *span, const char *bytes, const char *name)
{
  return strlen (name) == span->name_length && memcmp (bytes + span->start + 1, name, span->name_length) == 0;
}
