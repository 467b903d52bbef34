/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An instrument as XML, both ways.  Resistances stand in plain ohms, so that a
 * range reads like its data sheet: end="0.03" step="0.00001".
 */
#include "store/register-private.h"

#include "core/instrument.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MAX_VOLTS 10000
#define MAX_COUNTS 10000
/* 100 %, and 10 kA: beyond both, a figure is a slip of the unit. */
#define MAX_PPM 1000000
#define MAX_MICROAMPERE G_GINT64_CONSTANT (10000000000)

static void
set_ohm (xmlNode *node, const char *name, BondOhm nohm)
{
  g_autofree char *text = nohm != 0 ? bond_ohm_to_file (nohm) : NULL;

  bond_xml_set (node, name, text);
}

static void
set_count (xmlNode *node, const char *name, gint64 value)
{
  if (value != 0)
    bond_xml_set_int64 (node, name, value);
}

static void
write_range (xmlNode *parent, const BondRange *range)
{
  xmlNode *node = bond_xml_add (parent, "range"), *accuracy;

  bond_xml_set (node, "id", range->id);
  set_ohm (node, "end", range->end);
  set_ohm (node, "step", range->step);
  set_count (node, "microampere", range->microampere);
  if (!range->accuracy_known)
    return;
  accuracy = bond_xml_add (node, "accuracy");
  set_count (accuracy, "reading-ppm", range->accuracy_reading_ppm);
  set_count (accuracy, "range-ppm", range->accuracy_range_ppm);
  set_count (accuracy, "counts", range->accuracy_counts);
  set_ohm (accuracy, "ohm", range->accuracy_nohm);
}

static void
write_certificate (xmlNode *parent, const BondInstrument *instrument)
{
  xmlNode *node;

  if (instrument->certificate == NULL && instrument->certificate_k == 0)
    return;
  node = bond_xml_add (parent, "certificate");
  bond_xml_set (node, "number", instrument->certificate);
  set_count (node, "ppm", instrument->certificate_ppm);
  set_ohm (node, "ohm", instrument->certificate_nohm);
  if (instrument->certificate_k > 0)
    bond_xml_set_double (node, "k", instrument->certificate_k);
  if (instrument->certificate_dof > 0)
    bond_xml_set_double (node, "dof", instrument->certificate_dof);
}

void
bond_instrument_write (xmlNode *node, gconstpointer object)
{
  const BondInstrument *instrument = object;
  guint i;

  bond_head_write (node, instrument->id, instrument->revision);
  bond_xml_set (node, "kind", bond_instrument_kind_file_name (instrument->kind));
  bond_xml_set (node, "name", instrument->name);
  bond_xml_set (node, "make", instrument->make);
  bond_xml_set (node, "serial", instrument->serial);
  if (instrument->reversal != BOND_REVERSAL_BY_HAND)
    bond_xml_set (node, "reversal", bond_reversal_file_name (instrument->reversal));
  bond_xml_set (node, "vapour-approved", instrument->vapour_approved ? "yes" : NULL);
  set_count (node, "test-volts", instrument->test_volts);
  set_ohm (node, "nominal", instrument->nominal);
  bond_xml_set (node, "due", instrument->due);
  write_certificate (node, instrument);
  for (i = 0; i < instrument->ranges->len; i++)
    write_range (node, g_ptr_array_index (instrument->ranges, i));
}

/* Ohms above zero; absent leaves @nohm. */
static gboolean
read_ohm (xmlNode *node, const char *name, const char *file, BondOhm *nohm, GError **error)
{
  g_autofree char *text = bond_xml_get (node, name);

  if (text == NULL)
    return TRUE;
  if (bond_decimal_parse (text, &bond_number_format_file, BOND_NOHM_PER_OHM, nohm, NULL) && *nohm > 0)
    return TRUE;
  bond_sense_error (error, file, node, _ ("“%s” is not a usable resistance for %s. Write ohms above 0, like 0.03."),
                    text, name);
  return FALSE;
}

static gboolean
read_count (xmlNode *node, const char *name, const char *file, gint64 most, gint64 *value, GError **error)
{
  g_autofree char *text = bond_xml_get (node, name);

  if (text == NULL || g_ascii_string_to_signed (text, 10, 0, most, value, NULL))
    return TRUE;
  bond_sense_error (error, file, node,
                    _ ("“%s” is not a usable number for %s. Write digits, at most %" G_GINT64_FORMAT "."), text, name,
                    most);
  return FALSE;
}

static gboolean
read_accuracy (BondRange *range, xmlNode *parent, const char *file, GError **error)
{
  xmlNode *node = bond_xml_child (parent, "accuracy");

  range->accuracy_known = node != NULL;
  if (node == NULL)
    return TRUE;
  if (!read_count (node, "reading-ppm", file, MAX_PPM, &range->accuracy_reading_ppm, error)
      || !read_count (node, "range-ppm", file, MAX_PPM, &range->accuracy_range_ppm, error)
      || !bond_read_whole (node, "counts", file, MAX_COUNTS, &range->accuracy_counts, error)
      || !read_ohm (node, "ohm", file, &range->accuracy_nohm, error))
    return FALSE;
  if (range->accuracy_reading_ppm > 0 || range->accuracy_range_ppm > 0 || range->accuracy_counts > 0
      || range->accuracy_nohm > 0)
    return TRUE;
  bond_sense_error (error, file, node,
                    _ ("The accuracy of range %s has no figure. Write one from the data sheet, or leave the accuracy "
                       "out: it is then unknown, and said so."),
                    range->id);
  return FALSE;
}

static gboolean
read_range (BondInstrument *instrument, xmlNode *node, const char *file, GError **error)
{
  g_autofree char *id = bond_read_needed (node, "id", file, error);
  BondRange range = { .id = id };

  if (id == NULL || !read_ohm (node, "end", file, &range.end, error)
      || !read_ohm (node, "step", file, &range.step, error)
      || !read_count (node, "microampere", file, MAX_MICROAMPERE, &range.microampere, error)
      || !read_accuracy (&range, node, file, error))
    return FALSE;
  if (range.step <= 0 || range.step >= range.end)
    bond_sense_error (error, file, node,
                      _ ("Range %s needs an end, and a display step that is above 0 and below the end. Correct it."),
                      id);
  else if (bond_instrument_find_range (instrument, id) != NULL)
    bond_sense_error (error, file, node, _ ("Range %s is there twice. Give one another id."), id);
  else
    {
      bond_instrument_add_range (instrument, &range);
      return TRUE;
    }
  return FALSE;
}

static gboolean
read_certificate (BondInstrument *instrument, xmlNode *parent, const char *file, GError **error)
{
  xmlNode *node = bond_xml_child (parent, "certificate");
  gboolean known = FALSE;

  if (node == NULL)
    return TRUE;
  instrument->certificate = bond_xml_get (node, "number");
  if (!read_count (node, "ppm", file, MAX_PPM, &instrument->certificate_ppm, error)
      || !read_ohm (node, "ohm", file, &instrument->certificate_nohm, error)
      || !bond_read_number (node, "k", file, &instrument->certificate_k, &known, error)
      || !bond_read_number (node, "dof", file, &instrument->certificate_dof, &known, error))
    return FALSE;
  if (instrument->certificate_k == 0 && (instrument->certificate_ppm > 0 || instrument->certificate_nohm > 0))
    {
      bond_sense_error (error, file, node,
                        _ ("The uncertainty of the certificate is stated without its k. Add the k of the certificate, "
                           "usually 2."));
      return FALSE;
    }
  if (instrument->certificate_k == 0 || instrument->certificate_k >= 1)
    if (instrument->certificate_dof == 0 || instrument->certificate_dof >= 1)
      return TRUE;
  bond_sense_error (error, file, node,
                    _ ("The k and the degrees of freedom of a certificate are 1 or more. Correct "
                       "them or leave them out."));
  return FALSE;
}

/* A due date that no calendar has would never be overdue. */
static gboolean
read_due (BondInstrument *instrument, xmlNode *node, const char *file, GError **error)
{
  instrument->due = bond_xml_get (node, "due");
  if (instrument->due == NULL || bond_due_is_sound (instrument->due))
    return TRUE;
  bond_sense_error (error, file, node,
                    _ ("“%s” is no date. Write the last valid day, 2027-03-31, or its month, 2027-03."),
                    instrument->due);
  return FALSE;
}

static gboolean
read_attributes (BondInstrument *instrument, xmlNode *node, const char *file, GError **error)
{
  instrument->make = bond_xml_get (node, "make");
  instrument->serial = bond_xml_get (node, "serial");
  instrument->vapour_approved = bond_xml_get_bool (node, "vapour-approved", FALSE);
  return bond_read_word (node, "kind", file, (BondWordParser)bond_instrument_kind_parse, &instrument->kind, error)
         && bond_read_word (node, "reversal", file, (BondWordParser)bond_reversal_parse, &instrument->reversal, error)
         && bond_read_whole (node, "test-volts", file, MAX_VOLTS, &instrument->test_volts, error)
         && read_ohm (node, "nominal", file, &instrument->nominal, error) && read_due (instrument, node, file, error)
         && read_certificate (instrument, node, file, error);
}

gpointer
bond_instrument_read (xmlNode *node, const char *file, GError **error)
{
  g_autoptr (BondInstrument) instrument = NULL;
  g_autofree char *id = NULL, *name = NULL;
  xmlNode *range;
  int revision = 0;

  if (!bond_head_read (node, file, &id, &revision, error))
    return NULL;
  name = bond_read_needed (node, "name", file, error);
  if (name == NULL)
    return NULL;
  instrument = bond_instrument_new (id, revision, BOND_INSTRUMENT_MILLIOHMMETER, name);
  if (!read_attributes (instrument, node, file, error))
    return NULL;
  for (range = bond_xml_child (node, "range"); range != NULL; range = bond_xml_next (range, "range"))
    if (!read_range (instrument, range, file, error))
      return NULL;
  return g_steal_pointer (&instrument);
}
