/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Anything at all as a journal, and a sound one with anything spliced in: the file
 * behind it stays usable or is refused with a reason; never a crash.
 */
#include "sound-survey.h"
#include "splice.h"

#include "store/journal.h"

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  g_autoptr (GArray) lines = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *spliced = NULL;
  BondRecord *record;
  GBytes *file = fuzz_empty_survey ();
  gsize length;

  if (size < 1)
    return 0;
  if (data[0] == 0)
    lines = bond_journal_split ((const char *)data + 1, size - 1);
  else
    {
      spliced = fuzz_splice (fuzz_sound_journal (), data + 1, size - 1, &length);
      /* Cut off here and there: what a crash leaves. */
      if (data[0] > 192)
        length -= MIN (length, (gsize)data[0] * 7);
      lines = bond_journal_split (spliced, length);
    }
  record = bond_record_read_bytes ("fuzz", file, lines, problems, &error);
  fuzz_check_record (record, problems, error);
  return 0;
}
