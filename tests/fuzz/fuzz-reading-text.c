/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Anything at all in the reading field: no crash, and what is accepted is one or two
 * values whose exact text reads back as themselves.
 */
#include "core/reading-text.h"

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

/* A figure that cannot be written and read again would be a false record. */
static void
check_round_trip (const BondTypedValue *value)
{
  const BondNumberFormat format = { '.', TRUE };
  g_autofree char *exact = bond_ohm_format_exact (value->quantity.nohm, value->unit, 0, '.');
  BondOhm back;

  g_assert_true (bond_ohm_parse (exact, value->unit, &format, &back, NULL, NULL));
  g_assert_cmpint (back, ==, value->quantity.nohm);
  g_assert_nonnull (value->text);
  g_assert_true (value->quantity.qualifier == BOND_QUALIFIER_NONE || value->quantity.nohm > 0);
}

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  BondNumberFormat format;
  BondReadingText out;
  int i;

  if (size < 1)
    return 0;
  format = (BondNumberFormat){ data[0] & 1 ? ',' : '.', (data[0] & 2) != 0, (data[0] & 4) != 0 };
  text = g_strndup ((const char *)data + 1, size - 1);
  if (bond_reading_text_parse (text, (data[0] >> 3) % BOND_N_UNITS, &format, 30000000, 10000, &out, &error))
    {
      g_assert_no_error (error);
      g_assert_true (out.n_values == 1 || out.n_values == 2);
      for (i = 0; i < out.n_values; i++)
        check_round_trip (&out.value[i]);
      bond_reading_text_clear (&out);
    }
  else
    {
      g_assert_nonnull (error);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      g_assert_true (g_str_has_suffix (error->message, "Nothing was recorded."));
    }
  return 0;
}
