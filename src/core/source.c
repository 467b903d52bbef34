/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where time and ids come from: the computer, or a fixed start that gives the same
 * answers every time.  What the ids name is left to the survey.
 */
#include "core/source.h"

#include <errno.h>
#include <sys/random.h>

struct _BondSource
{
  int ref_count;
  GDateTime *fixed; /* the next answer; NULL = the computer's clock */
  int step_seconds;
  guint64 next_id;
};

#define ID_BYTES 16

static BondSource *
source_new (void)
{
  BondSource *source = g_new0 (BondSource, 1);

  source->ref_count = 1;
  return source;
}

static char *
hex (const guint8 *bytes, gsize n_bytes, const char *prefix)
{
  GString *text = g_string_new (prefix);
  gsize i;

  for (i = 0; i < n_bytes; i++)
    g_string_append_printf (text, "%02x", bytes[i]);
  return g_string_free (text, FALSE);
}

/* An id must not repeat on another computer: without random numbers there is no safe way on. */
static void
fill_random (guint8 *bytes, gsize n_bytes)
{
  gsize done = 0;

  while (done < n_bytes)
    {
      gssize n = getrandom (bytes + done, n_bytes - done, 0);

      if (n < 0 && errno != EINTR)
        g_error ("The kernel gives no random numbers: %s", g_strerror (errno));
      done += n > 0 ? (gsize)n : 0;
    }
}

BondSource *
bond_source_new_system (void)
{
  return source_new ();
}

BondSource *
bond_source_new_fixed (const char *start, int step_seconds, guint64 seed)
{
  g_autoptr (GDateTime) time = NULL;
  BondSource *source;

  g_return_val_if_fail (start != NULL, NULL);
  time = g_date_time_new_from_iso8601 (start, NULL);
  g_return_val_if_fail (time != NULL, NULL);

  source = source_new ();
  source->fixed = g_steal_pointer (&time);
  source->step_seconds = step_seconds;
  source->next_id = seed;
  return source;
}

BondSource *
bond_source_ref (BondSource *source)
{
  g_return_val_if_fail (source != NULL, NULL);
  g_atomic_int_inc (&source->ref_count);
  return source;
}

void
bond_source_unref (BondSource *source)
{
  g_return_if_fail (source != NULL);
  if (!g_atomic_int_dec_and_test (&source->ref_count))
    return;
  g_clear_pointer (&source->fixed, g_date_time_unref);
  g_free (source);
}

char *
bond_source_peek (BondSource *source)
{
  g_autoptr (GDateTime) now = NULL;

  g_return_val_if_fail (source != NULL, NULL);
  now = source->fixed != NULL ? g_date_time_ref (source->fixed) : g_date_time_new_now_local ();
  return g_date_time_format (now, "%Y-%m-%dT%H:%M:%S%:z");
}

char *
bond_source_now (BondSource *source)
{
  g_autoptr (GDateTime) now = NULL;
  char *text;

  g_return_val_if_fail (source != NULL, NULL);
  text = bond_source_peek (source);
  now = g_steal_pointer (&source->fixed);
  if (now != NULL)
    source->fixed = g_date_time_add_seconds (now, source->step_seconds);
  return text;
}

void
bond_source_set_now (BondSource *source, const char *iso8601)
{
  g_autoptr (GDateTime) time = NULL;

  g_return_if_fail (source != NULL && source->fixed != NULL && iso8601 != NULL);
  time = g_date_time_new_from_iso8601 (iso8601, NULL);
  g_return_if_fail (time != NULL);
  g_date_time_unref (source->fixed);
  source->fixed = g_steal_pointer (&time);
}

char *
bond_source_id (BondSource *source, const char *prefix)
{
  guint8 bytes[ID_BYTES] = { 0 };
  int i;

  g_return_val_if_fail (source != NULL && prefix != NULL, NULL);
  if (source->fixed == NULL)
    {
      fill_random (bytes, sizeof bytes);
    }
  else
    {
      guint64 id = source->next_id++;

      for (i = ID_BYTES - 1; id > 0; i--, id >>= 8)
        bytes[i] = (guint8)(id & 0xff);
    }
  return hex (bytes, sizeof bytes, prefix);
}
