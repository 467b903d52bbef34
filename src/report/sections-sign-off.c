/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The last page: what a signature under this report states and what it does not,
 * room for ink and stamp, who took part, and the cautions that go with the work.
 */
#include "report/report-private.h"

#include <glib/gi18n-lib.h>

#define BLOCK_HEIGHT 84.0

typedef struct
{
  const char *role, *states;
  char *name; /* owned, NULL: to be written by hand */
} Signature;

static void
signature_free (gpointer data)
{
  Signature *signature = data;

  g_free (signature->name);
  g_free (signature);
}

static void
draw_field (BondReport *report, cairo_t *cr, double x, double width, double y, const char *label)
{
  bond_rule (cr, x, x + width, y, 0.5, 0);
  bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->quiet, x, y + 9, width, 0, label);
}

static void
draw_signature (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  const Signature *signature = block->data;
  const BondSheet *sheet = &report->sheet;
  double left = sheet->left, stamp = sheet->right - 86, middle = left + 240;

  bond_rule (cr, left, sheet->right, y, 0.8, 0);
  bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->quiet, left, y + 13, 220, 0, _ (signature->role));
  if (signature->name != NULL)
    bond_text_wrapped (report->text, cr, BOND_FACE_NAME, &report->inks->text, left, y + 30, 220, 2, signature->name);
  else
    draw_field (report, cr, left, 200, y + 42, _ ("name"));
  bond_text_wrapped (report->text, cr, BOND_FACE_TABLE, &report->inks->quiet, left, y + 64, 226, 2,
                     _ (signature->states));
  draw_field (report, cr, middle, stamp - middle - 14, y + 42, _ ("signature"));
  draw_field (report, cr, middle, stamp - middle - 14, y + 68, _ ("date and time"));
  cairo_set_source_rgb (cr, 0, 0, 0);
  cairo_set_line_width (cr, 0.5);
  cairo_rectangle (cr, stamp, y + 12, 86, 56);
  cairo_stroke (cr);
  bond_text_line (report->text, cr, BOND_FACE_CAPTION, &report->inks->quiet, stamp, y + 42, 86, 0.5, _ ("stamp"));
}

static void
add_signature (BondReport *report, const char *role, const char *states, char *name)
{
  Signature *signature = bond_report_own (report, g_new0 (Signature, 1), signature_free);

  signature->role = role;
  signature->states = states;
  signature->name = name;
  bond_flow_add (report, BLOCK_HEIGHT, "P", draw_signature, signature);
}

static void
draw_end_rule (BondReport *report, cairo_t *cr, const BondBlock *block, double y)
{
  (void)block;
  bond_rule (cr, report->sheet.left, report->sheet.right, y, 0.8, 0);
}

static void
add_signatures (BondReport *report)
{
  g_autofree char *measurers = bond_report_measurers (report);
  gboolean known = g_strcmp0 (measurers, "\u2013") != 0;

  bond_flow_space (report, 10);
  add_signature (report, N_ ("Inspector"), N_ ("took the readings or directly supervised them"),
                 known ? g_steal_pointer (&measurers) : NULL);
  add_signature (report, N_ ("Independent inspector"), N_ ("examined the points named for independent inspection"),
                 NULL);
  add_signature (report, N_ ("Quality"), N_ ("reviewed the record"), NULL);
  bond_flow_add (report, 4, NULL, draw_end_rule, NULL);
}

static const BondColumn people_columns[] = {
  { N_ ("Name"), 0, 0, BOND_FACE_STRONG, FALSE },
  { N_ ("Stamp"), 90, 0, BOND_FACE_TABLE, FALSE },
  { N_ ("Role"), 170, 0, BOND_FACE_TABLE, FALSE },
};

static void
add_people (BondReport *report)
{
  GPtrArray *people = bond_survey_get_people (report->survey);
  BondTable *table;
  guint i;

  if (people->len == 0)
    return;
  bond_heading (report, _ ("People"), NULL);
  table = bond_table_begin (report, people_columns, G_N_ELEMENTS (people_columns));
  for (i = 0; i < people->len; i++)
    {
      const BondPerson *person = g_ptr_array_index (people, i);
      const char *cells[] = { person->name, person->stamp, person->role };

      bond_table_row (table, -1, cells);
    }
  bond_table_end (table);
}

static void
add_cautions (BondReport *report)
{
  bond_heading (report, _ ("Cautions"), NULL);
  bond_paragraph (
      report, BOND_FACE_TEXT,
      _ ("Fuel vapour: where it may be present, use only equipment approved for it. Electro-explosive devices: "
         "no test current through or near their circuits. High test current: thin jumpers, bearings and "
         "instruments on the path may be harmed. In all of these the aircraft maker's manual and the local "
         "rules govern, not this report."));
}

static void
add_program (BondReport *report)
{
  const BondCreate *create = bond_survey_get_header (report->survey);
  g_autofree char *text
      = g_strdup_printf (_ ("Bondwright %s, survey format 1. Fonts asked for: %s."), BOND_VERSION, report->font);

  bond_heading (report, _ ("Software"), NULL);
  bond_paragraph (report, BOND_FACE_TEXT, text);
  if (create != NULL && create->invented)
    bond_paragraph (report, BOND_FACE_STRONG_TEXT, _ ("Invented example data; not a record of any aircraft."));
  if (report->missing_glyphs > 0)
    {
      g_autofree char *missing = g_strdup_printf (
          ngettext (
              "%d character of the record has no letter in the fonts of this computer and is printed as a box.",
              "%d characters of the record have no letter in the fonts of this computer and are printed as boxes.",
              (gulong)report->missing_glyphs),
          report->missing_glyphs);

      bond_paragraph (report, BOND_FACE_STRONG_TEXT, missing);
    }
}

void
bond_section_sign_off (BondReport *report)
{
  bond_section_begin (report, _ ("Sign-off"), NULL);
  bond_paragraph (report, BOND_FACE_LEAD,
                  _ ("Who signs states that the readings in this report were taken on the points named, with the "
                     "instruments named, and judged by the decision rule printed in it. This sign-off is not a release "
                     "to service."));
  add_signatures (report);
  add_people (report);
  add_cautions (report);
  add_program (report);
}
